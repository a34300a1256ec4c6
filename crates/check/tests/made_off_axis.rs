//! Cuts from the side and holes beside the axis as they were made: in the place of what is drawn.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_check::{check, compared, walls};
use quillet_geometry::Length;
use quillet_model::{Design, Hand, MadeSize, Origin, Part, SideCutKind, Texts, load, resolve};
use std::path::Path;

const DRAWN: &str = "
part cap from mouth to crown {
  blank of acrylic rod 18
  length 40
  outside dia 15
  side {
    flat deep 0.5 at 25..35 clock 30
    drill 1 at 20 clock 90
    drill 1 at 20 clock 180
  }
  from mouth { bore 10 to 12 }
  from crown { drill 2 to 5 on 9 indexed 3 }
}
part plug from front to back {
  blank of acrylic rod 18
  length 30
  outside dia 14
  side {
    slot 1 to 1.5 at 0..8 indexed 2
    flat across 13 at 12..20 indexed 8
    pattern \"knurl\" deep 0.3 share 0.4 at 22..26
  }
  from front { tenon 9.9 for 8 }
}
pen redshank { slip plug.front into cap.mouth }
";

fn made(lines: &str) -> Design {
    let text = format!("{DRAWN}made redshank-1 of redshank {{\n{lines}\n}}\n");
    let texts = Texts::default().with("pen.quillet", &text);
    resolve(&load(Path::new("pen.quillet"), &texts).unwrap())
}

fn part<'d>(design: &'d Design, pen: &str, name: &str) -> &'d Part {
    let pen = design.pen(pen).unwrap();
    &pen.parts[pen.part_id(name).unwrap()]
}

/// Rule and message of what is found in the made pen alone.
fn told(design: &Design) -> Vec<String> {
    let mut found = check(design);
    let text = &design.root().unwrap().text;
    let from = text.find("made redshank-1").unwrap();
    found.retain(|it| it.span.range().start >= from);
    let told = found
        .iter()
        .map(|it| format!("{}: {}", it.rule, it.message));
    told.collect()
}

#[test]
fn a_cut_from_the_side_stands_for_the_drawn_one_of_its_kind_and_place() {
    let design = made(
        "part cap { side { flat deep 0.55 at 25.05..35 ; drill 1.05 at 20.1 clock 181 } }
part plug { side { flat across 13.1 at 12..20 ; pattern \"knurl\" deep 0.32 at 22..26 } }",
    );
    assert_eq!(told(&design), [""; 0]);
    let cap = part(&design, "redshank-1", "cap");
    assert!(
        matches!(cap.sides()[0].kind, SideCutKind::Deep(deep) if deep == Length::mm(0.55)),
        "{:?}",
        cap.sides()[0]
    );
    assert_eq!(cap.sides()[0].stretch.from, Length::mm(25.05));
    // Not said: where round, how often, and what share goes are the drawing's.
    assert_eq!(cap.sides()[0].around.clock.to_deg(), 30.0);
    let clocks: Vec<f64> = cap
        .sides()
        .iter()
        .map(|it| it.around.clock.to_deg())
        .collect();
    assert_eq!(clocks, [30.0, 90.0, 181.0]);
    let plug = part(&design, "redshank-1", "plug");
    assert_eq!(plug.sides()[1].around.count, 8);
    assert!(matches!(plug.sides()[2].kind, SideCutKind::Pattern { share, .. } if share == 0.4));
    let statements = &design
        .pen("redshank-1")
        .unwrap()
        .made
        .as_ref()
        .unwrap()
        .statements;
    let sides = statements
        .iter()
        .filter(|it| matches!(it.what, MadeSize::Side(_)));
    assert_eq!(sides.count(), 4);
    // The drawn pen is as it was.
    let drawn = part(&design, "redshank", "cap");
    assert!(matches!(drawn.sides()[0].kind, SideCutKind::Deep(deep) if deep == Length::mm(0.5)));
}

/// A flat takes the segment of the circle, R² acos (d / R) - d √(R² - d²); three holes ⌀d each π/4 d² of
/// their depth and a cone of 118°, a third of that of d / 2 / tan 59°.
#[test]
fn what_was_made_is_weighed_and_its_walls_are_told_as_they_came_out() {
    let design = made(
        "part cap { side { flat deep 0.7 at 25..35 } ; from crown { drill 2.1 to 5.3 on 9.2 indexed 3 } }",
    );
    let volume = |pen: &str| {
        let profiles = part(&design, pen, "cap").profiles.as_ref().unwrap();
        profiles.properties().volume_mm3
    };
    let segment = |deep: f64| {
        let (r, d) = (7.5, 7.5 - deep);
        10.0 * (r * r * (d / r).acos() - d * (r * r - d * d).sqrt())
    };
    let holes = |dia: f64, deep: f64| {
        let area = std::f64::consts::FRAC_PI_4 * dia * dia;
        3.0 * area * (deep + dia / 2.0 / 59.0_f64.to_radians().tan() / 3.0)
    };
    let less = segment(0.7) - segment(0.5) + holes(2.1, 5.3) - holes(2.0, 5.0);
    let off = volume("redshank") - volume("redshank-1") - less;
    assert!(off.abs() < 1e-6, "{off}");
    // From a hole to the outside: 7.5 - (9.2 + 2.1) / 2; each measured to 0.02, the outside kept to 0.1.
    let cap = part(&design, "redshank-1", "cap");
    let all = walls(cap);
    let outside =
        |it: &&quillet_check::Wall| it.beside().is_some() && matches!(it.outer, Origin::Outside(_));
    let wall = all
        .iter()
        .filter(outside)
        .min_by_key(|it| it.least)
        .unwrap();
    let (least, worst) = (wall.least, wall.worst(cap, &Hand::default()));
    assert!((least.to_mm() - 1.85).abs() < 1e-6, "{least:?}");
    let taken = (least - worst).to_mm();
    assert!((taken - 0.05 - 0.01 - 0.01).abs() < 1e-6, "{taken}");
}

/// One flat is read from it to the round, 14.5 where 0.5 is drawn, of which ISO 2768-1 f keeps 0.1; of eight
/// the reading is the size. A slot's width of 1 keeps 0.05, its depth 0.1 (m), a place of 20 mm 0.1.
#[test]
fn what_lies_outside_what_was_asked_is_told() {
    let within = made(
        "part cap { side { flat deep 0.59 at 25..35 ; drill 1.1 at 20.09 clock 90 } ; from crown { drill 2.1 to \
         5.09 on 9.09 } }
part plug { side { slot 1.04 to 1.59 at 0..8 indexed 2 ; flat across 13.09 at 12..20 } }",
    );
    assert_eq!(told(&within), [""; 0]);
    let off = made(
        "part cap { side { flat deep 0.61 at 25..35 ; drill 1 at 20.11 clock 90 } ; from crown { drill 2.2 to 5 on \
         9.2 } }
part plug { side { slot 1.06 to 1.61 at 0..8 ; flat across 13.11 at 12..20 } }",
    );
    assert_eq!(
        told(&off),
        [
            "off-drawing: 0.61 mm deep; 0.40 mm to 0.60 mm was asked",
            "off-drawing: 20.11 mm along; 19.90 mm to 20.10 mm was asked",
            "off-drawing: cut to ⌀2.20; ⌀2.00 to ⌀2.15 was asked",
            "off-drawing: on ⌀9.20; ⌀8.90 to ⌀9.10 was asked",
            "off-drawing: 1.06 mm wide; 0.95 mm to 1.05 mm was asked",
            "off-drawing: 1.61 mm deep; 1.40 mm to 1.60 mm was asked",
            "off-drawing: 13.11 mm across; 12.90 mm to 13.10 mm was asked",
        ]
    );
    let sizes = compared(&off, off.pen("redshank-1").unwrap());
    let of: Vec<String> = sizes.iter().map(|it| it.of.to_string()).collect();
    assert!(of.contains(&"⌀2.00 holes on ⌀9.00".to_owned()), "{of:?}");
}

#[test]
fn what_is_not_made_yet_goes_with_the_plane_it_ends_in() {
    let design = made("part plug { from front { tenon 9.9 for 8.04 } }\npart cap { length 40.1 }");
    let plug = part(&design, "redshank-1", "plug");
    assert_eq!(plug.sides()[0].stretch.to, Length::mm(8.04));
    let cap = part(&design, "redshank-1", "cap");
    assert_eq!(cap.sides()[0].stretch.to, Length::mm(35.0));
    let design =
        made("part plug { from front { tenon 9.9 for 8.04 } ; side { slot 1 to 1.5 at 0..8.02 } }");
    let plug = part(&design, "redshank-1", "plug");
    assert_eq!(plug.sides()[0].stretch.to, Length::mm(8.02));
}

/// Each slip by itself: one finding, that says this.
#[test]
fn each_slip_is_one_clear_finding() {
    for (lines, words) in SLIPS {
        let design = made(lines);
        let told = told(&design);
        assert_eq!(told.len(), 1, "{lines}\n{told:#?}");
        assert!(told[0].starts_with(words), "{lines}\n{told:#?}");
        assert!(design.pen("redshank-1").is_some(), "{lines}");
    }
}

#[test]
fn what_is_accepted_in_a_side_block_is_put_aside() {
    let design = made(
        "part cap { side { flat deep 0.7 at 25..35 ; accept off-drawing because \"a stop that grips\" } }",
    );
    assert_eq!(told(&design), [""; 0]);
}

/// What is written, and how the finding begins.
const SLIPS: [(&str, &str); 14] = [
    (
        "part cap { side { slot 1 at 20..22 } }",
        "not-in-drawing: no such slot is drawn on cap",
    ),
    (
        "part cap { side { drill 1 at 24 clock 90 } }",
        "not-in-drawing: no side hole is drawn on cap within 1 mm of this place; the nearest is 4 mm off",
    ),
    (
        "part cap { side { drill 1 to 2 at 20 clock 90 } }",
        "not-in-drawing: this is drawn in other words: drill 1 at 20 clock 90",
    ),
    (
        "part cap { side { drill 1 at 20 clock 45 } }",
        "not-in-drawing: no such side hole is drawn on cap",
    ),
    (
        "part plug { side { flat across 13 at 12..20 indexed 6 } }",
        "not-in-drawing: this is drawn in other words: flat across 13 at 12..20 indexed 8",
    ),
    (
        "part plug { side { flat across 13 to 12 at 12..20 } }",
        "not-in-drawing: this is drawn in other words: flat across 13 at 12..20 indexed 8",
    ),
    (
        "part plug { side { flat across 13 at 12..20 ; flat across 13 at 12..20 } }",
        "not-in-drawing: no such flat is drawn on plug",
    ),
    (
        "part plug { side { flat across 130 at 12..20 } }",
        "out-of-range: 130 mm was measured where 13 mm is drawn",
    ),
    (
        "part cap { from crown { drill 2 to 7 on 9 } }",
        "not-in-drawing: no such holes are drawn from cap's crown",
    ),
    (
        "part cap { from crown { bore 2 to 5 on 9 } }",
        "not-in-drawing: no such holes are drawn from cap's crown",
    ),
    (
        "part cap { from crown { drill 2 to 5 on 9 indexed 4 } }",
        "not-in-drawing: this is drawn in other words: drill 2 to 5 on 9 indexed 3",
    ),
    (
        "part cap { from crown { drill 2 to 5 on 90 } }",
        "out-of-range: 90 mm was measured where 9 mm is drawn",
    ),
    (
        "part cap { from crown { drill 2 to 5 } }",
        "not-in-drawing: no such drill is drawn from cap's crown",
    ),
    (
        "part cap { side { flat sharp at 3..1 } }",
        "out-of-range: this cut runs from 3 mm back to 1 mm",
    ),
];
