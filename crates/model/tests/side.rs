//! What is cut from the side and what mechanisms say: as resolved, and as bad input is told of.

use quillet_geometry::Length;
use quillet_model::{Design, Part, PieceId, SideCutKind, SideDepth, Texts, load, resolve};
use quillet_syntax::Finding;
use std::path::Path;

fn design(source: &str) -> Design {
    let texts = Texts::default().with("pen.quillet", source);
    resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"))
}

/// What is found, but for what is not reckoned with yet.
#[track_caller]
fn check(text: &str) {
    quillet_fixture::check(text, |source| {
        let reckoned = |it: &Finding| it.rule != "not-reckoned";
        design(source)
            .findings
            .into_iter()
            .filter(reckoned)
            .collect()
    });
}

fn part<'d>(design: &'d Design, name: &str) -> &'d Part {
    design.part(name).expect("the part is there")
}

#[test]
#[expect(clippy::too_many_lines, reason = "one text and all that comes of it")]
fn cuts_from_the_side_are_resolved_to_stations_counts_and_angles() {
    let design = design(
        r#"
let deep = 0.4
bought clip from under to over { length 1; mass 1; outside dia 4 }
part cap from mouth to crown {
  blank of acrylic rod 16
  length 60
  outside dia 14
  side {
    flat across 13.2 to 12.6 at 10..6 from crown indexed 8 clock 22.5
    flat deep deep at 20..36 clock 180
    drill #60 at 46
    slot 4.2 to 1 at 12 from crown..10 from crown takes clip
    pattern "knurl" deep 0.25 at 0.5..2.5
  }
  from mouth {
    drill 10 to 50
    bore 1.5 to 2 on 12 indexed 3
  }
  finish "lacquer" coat 0.05
}
"#,
    );
    let cap = part(&design, "cap");
    let [flat, deep, hole, slot, pattern] = cap.sides() else {
        panic!("{:#?}", cap.sides());
    };
    assert!(matches!(
        flat.kind,
        SideCutKind::Across { from_dia, to_dia }
            if from_dia == Length::mm(13.2) && to_dia == Length::mm(12.6)
    ));
    assert_eq!(
        (flat.stretch.from, flat.stretch.to),
        (Length::mm(10.0), Length::mm(54.0))
    );
    assert_eq!((flat.around.count, flat.around.clock.to_deg()), (8, 22.5));
    assert!(matches!(deep.kind, SideCutKind::Deep(it) if it == Length::mm(0.4)));
    assert_eq!(deep.around.count, 1);
    // 0.040 in: number drills, ASME B94.11M.
    assert!(matches!(
        hole.kind,
        SideCutKind::Drill { dia, depth: SideDepth::Void, .. } if dia == Length::mm(1.016)
    ));
    assert_eq!(hole.stretch.from, hole.stretch.to);
    assert!(matches!(
        slot.kind,
        SideCutKind::Slot { depth: SideDepth::To { deep: it, .. }, .. } if it == Length::mm(1.0)
    ));
    assert_eq!(slot.stretch.from, Length::mm(48.0));
    assert_eq!(slot.around.takes.as_ref().map(|it| &*it.text), Some("clip"));
    assert!(matches!(pattern.kind, SideCutKind::Pattern { share, .. } if share == 0.5));
    assert_eq!(cap.circles().len(), 1);
    assert_eq!(cap.circles()[0].on, Length::mm(12.0));
    assert_eq!(
        cap.features.len(),
        1,
        "holes beside the axis are no bore on it"
    );
    assert_eq!(cap.coat().map(|it| it.thickness), Some(Length::mm(0.05)));
    let told = design
        .findings
        .iter()
        .filter(|it| it.rule == "not-reckoned");
    assert_eq!(told.count(), 0, "{:#?}", design.findings);
}

#[test]
fn a_part_like_another_has_its_side_cuts_unless_it_has_its_own() {
    let design = design(
        r#"
part one from front to back {
  blank of acrylic rod 16
  length 20
  outside dia 14
  side { drill 1 at 4; drill 1 at 8 }
}
part two like one
part three like one { side { drill 2 at 5 } }
"#,
    );
    assert_eq!(part(&design, "two").sides().len(), 2);
    assert_eq!(part(&design, "three").sides().len(), 1);
}

#[test]
fn bad_numbers_are_told_at_the_number() {
    check(
        r#"
material cork { kind acrylic; modulus 2.4; strain 1.5 }
part cap from mouth to crown {
  blank of cork rod 16
  length 60
  outside dia 14
  side {
    flat across 13 at 10..60 indexed 2.5
                                     ^^^ out-of-range: 2.5 is no count; a whole number from 1 to 360 is expected
    flat across 13 at 10..60 indexed 0
                                     ^ out-of-range: 0 is no count; a whole number from 1 to 360 is expected
    flat sharp at 10..60 indexed 2
                                 ^ out-of-range: sharp flats meet from 3 on, not 2
    flat sharp at 10..60
         ^^^^^ out-of-range: sharp flats meet from 3 on, not 1
    flat deep 0.4 at 40..20
                  ^^^^^^^^^ out-of-range: this cut runs from 40 mm back to 20 mm, from the first end
    slot 2 at 20..20
           ^^^^^^^^^ out-of-range: this cut runs from 20 mm to the same place
    slot 2 at 20
           ^^^^^ out-of-range: this cut lies at one place; it runs from one to another
    drill 2 at 20..24
            ^^^^^^^^^ out-of-range: a hole from the side lies at one place, not on a stretch
    pattern "knurl" deep 0.2 share 1.2 at 2..4
                                   ^^^ out-of-range: a pattern takes a share of 1.2; from 0 to 1 is expected
    drill 1 at 46 clock 400
                        ^^^ out-of-range: an angle of 400 goes round more than once, or the wrong way; 0° to less than 360° is expected
    drill 1 at 61
               ^^ out-of-range: this station lies at 61 mm, beyond the 60 mm of cap
    drill 1 at 30 takes clop
                        ^^^^ unknown-name: no bought part is called clop
  }
  finish "lacquer" coat 3
                        ^ out-of-range: a coat of 3 mm is no finish; 1 mm at most is expected
}
part tube from front to back {
  blank of brass tube 9.5 wall 5
                               ^ out-of-range: a wall of 5 mm leaves no bore in a tube of 9.5 mm
  length 40
  outside dia 9.5
}
"#,
    );
}

/// Sums by hand: on a circle of 12, six holes lie 12 sin 30° = 6 apart, and seven 12 sin(180°/7) = 5.21.
/// Nine mouths 4 wide in a ⌀14 outside take 9 × 2 asin(4/14) = 298.8° and eleven 365.2°; of five that
/// go through, ten mouths 4.4 wide take 366.5°. Flats of unlike sets may overlap.
#[test]
#[expect(clippy::too_many_lines, reason = "one list of texts and findings")]
fn what_the_part_has_no_room_for_is_told_at_the_number() {
    check(
        r#"
part one from front to back {
  blank of acrylic rod 16; length 60; outside dia 14
  side {
    flat deep 7 at 2..8
              ^ out-of-range: a flat 7 mm deep goes past the axis of the ⌀14.00 outside
    drill 14 at 20
          ^^ out-of-range: a side hole 14 mm wide is as wide as the ⌀14.00 outside
    drill 3 to 7.1 at 30
               ^^^ out-of-range: a side hole 7.1 mm deep goes past the axis of the ⌀14.00 outside
    drill 3 to 7 at 36
    drill 3 through at 42
    slot 15 at 46..50
         ^^ out-of-range: a slot 15 mm wide is as wide as the ⌀14.00 outside
    pattern "knurl" deep 8 at 52..54
                         ^ out-of-range: a pattern 8 mm deep goes past the axis of the ⌀14.00 outside
  }
}
part domed from front to back {
  blank of acrylic rod 16; length 60; outside { at 0 dia 14; at 50 dia 14; at back dia 0 dome }
  side {
    flat deep 0.5 at 40..60
              ^^^ out-of-range: a flat 0.5 mm deep goes past the axis of the ⌀0.00 outside
    flat deep 0.5 at 40..58 clock 180
  }
}
part two from front to back {
  blank of acrylic rod 16; length 60; outside dia 14
  side {
    flat deep 0.4 at 2..8
    flat across 13.4 at 4..10 indexed 8
    slot 4 to 1 at 2..8 indexed 9
    slot 4 to 1 at 10..16 indexed 11
         ^ out-of-range: this slot, 11 times round the part, runs into itself
    drill 4 through at 20 indexed 5
    drill 4.4 through at 26 indexed 5
          ^^^ out-of-range: this side hole, 5 times round the part, runs into itself
    drill 4.4 through at 32 indexed 6
    drill 2 at 40
    ~~~~~~~~~~~~~ cut here
    drill 2 at 42 clock 0
    slot 1 at 40.5..44
           ^^^^^^^^^^^ out-of-range: this slot runs into the side hole before it
    slot 1 at 40.5..44 clock 90
    slot 1 at 50..56 indexed 4
    ~~~~~~~~~~~~~~~~~~~~~~~~~~ cut here
    drill 2 at 54 clock 80
            ^^^^^ out-of-range: this side hole runs into the slot before it
    drill 2 at 54 clock 45
  }
}
part three from front to back {
  blank of acrylic rod 20
  length 20
  outside dia 18
  from front {
    bore 8 to 10
    bore 6 to 2 on 12 indexed 6
                   ^^ out-of-range: 6 holes of ⌀6.00 on a circle of ⌀12.00 run into each other
    bore 3 to 2 on 15 indexed 3
                   ^^ out-of-range: holes of ⌀3.00 on a circle of ⌀15.00 come out through the outside (⌀18.00)
    bore 3 to 2 on 11 indexed 3
                   ^^ out-of-range: holes of ⌀3.00 on a circle of ⌀11.00 run into the bore (⌀8.00)
    bore 2 to 2 on 13 indexed 12
  }
}
"#,
    );
}

#[test]
fn what_stands_in_the_wrong_place_is_told_where_it_belongs() {
    check(
        r#"
bought click from nose to button {
  length 44
  mass 6.2
  outside dia 9
  throw 5 from nose
  throw 4 from nose
  ^^^^^^^^^^^^^^^^^ syntax: two throws from nose; one is expected
  side { drill 1 at 4 }
  ^^^^^^^^^^^^^^^^^^^^^ syntax: a bought part is not cut from the side
}
part barrel from mouth to tail {
  blank of acrylic rod 16
  length 60
  outside dia 14
  throw 5 from mouth
  ^^^^^^^^^^^^^^^^^^ syntax: only a bought mechanism throws what goes into it
  pulls 9
  ^^^^^^^ syntax: only a bought magnet pulls
  from mouth {
    drill 9 to 50
  }
}
pen avocet {
  screw click.nose into barrel.mouth snap 0.1 before turning
                                     ^^^^^^^^ syntax: snap 0.1 has no meaning behind screw
                                              ^^^^^^^^^^^^^^ syntax: before turning has no meaning behind screw
}
"#,
    );
}

#[test]
fn a_magnet_and_a_sleeve_say_what_they_hold() {
    let design = design(
        r#"
bought magnet from north to south { length 2; mass 0.1; outside dia 3; pulls 2.1N }
bought sleeve from front to back { length 20; mass 1; outside dia 8; grips 6.9..7.2 }
material shell { kind polycarbonate; strain 1.8 }
part cap from mouth to crown { blank of shell rod 16; length 20; outside dia 14 }
"#,
    );
    assert_eq!(part(&design, "magnet").pulls_n(), Some(2.1));
    assert_eq!(
        part(&design, "sleeve").grips(),
        Some((Length::mm(6.9), Length::mm(7.2)))
    );
    let shell = &part(&design, "cap").blanks()[PieceId::FIRST].stock.material;
    // The kind's own where nothing is said: tables of the strength of materials, from memory.
    assert_eq!(
        (shell.modulus_gpa, shell.strain_percent),
        (Some(2.35), Some(1.8))
    );
}
