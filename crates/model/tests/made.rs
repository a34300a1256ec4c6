//! What was made of a pen, resolved: each slip is one clear finding, and hides no other.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_model::{Design, MadeSize, Texts, load, resolve};
use quillet_syntax::Severity;
use std::path::Path;

const PEN: &str = "
bought refill from point to end { length 30 ; mass 3 ; outside dia 7 }
part spare from mouth to end { blank of acrylic rod 18 ; length 20 ; outside dia 15 }
part cap from mouth to crown {
  blank of acrylic rod 18
  length 40
  outside {
    at 0 dia 15
    at 20 dia 15.5
    at 40 dia 15
  }
  from mouth {
    bore 10 to 12
    drill 8 to 30 point 130
    drill 4 through
  }
}
part plug from front to back {
  blank of acrylic rod 18
  length 30
  outside {
    at 8 dia 14 as shoulder
    at 30 dia 14
  }
  from front {
    tenon 9.9 for 8
    bore 7.1 to 25
  }
}
pen redshank {
  slip plug.front into cap.mouth
  slip refill.end into plug.front
}
";

fn made(lines: &str) -> Design {
    let text = format!("{PEN}made redshank-1 on \"3 May\" of redshank {{\n{lines}\n}}\n");
    design(&text)
}

fn design(text: &str) -> Design {
    let texts = Texts::default().with("pen.quillet", text);
    resolve(&load(Path::new("pen.quillet"), &texts).unwrap())
}

/// Rule and message of each error.
fn told(design: &Design) -> Vec<String> {
    let errors = design.findings.iter();
    let errors = errors.filter(|it| it.severity == Severity::Error);
    errors
        .map(|it| format!("{}: {}", it.rule, it.message))
        .collect()
}

#[test]
fn a_made_statement_stands_for_the_drawn_one_that_is_nearest() {
    let design = made(
        "part cap { length 39.8; from mouth { drill 8.1 to 30.4; drill 4.05 through } }
part plug { outside { at 8.1 dia 13.9 } }
measured mass(uncapped) 15.6",
    );
    assert_eq!(told(&design), [""; 0]);
    let pen = design.pen("redshank-1").unwrap();
    let cap = &pen.parts[pen.part_id("cap").unwrap()];
    assert_eq!(cap.length.to_mm(), 39.8);
    let deep: Vec<_> = cap
        .features
        .iter()
        .map(|it| (it.dia().unwrap().to_mm(), it.to.to_mm()))
        .collect();
    assert_eq!(deep, [(10.0, 12.0), (8.1, 30.4), (4.05, 39.8)]);
    // What the drill's point is, only the drawing says.
    assert!(
        matches!(cap.features[quillet_model::Id::nth(1)].cut, quillet_model::Cut::Drill { point, .. } if point.to_deg() == 130.0)
    );
    let plug = &pen.parts[pen.part_id("plug").unwrap()];
    // The shoulder is one face with the tenon's end, and keeps its name.
    assert_eq!(plug.face("shoulder").unwrap().at.to_mm(), 8.1);
    assert_eq!(plug.features.first().unwrap().to.to_mm(), 8.1);
    let made = pen.made.as_ref().unwrap();
    assert_eq!(made.on.as_ref().map(|it| &*it.text), Some("3 May"));
    assert_eq!((made.statements.len(), made.measured.len()), (4, 1));
    assert_eq!(made.statements[0].what, MadeSize::Length);
    // The drawn pen is as it was.
    let drawn = design.pen("redshank").unwrap();
    assert_eq!(
        drawn.parts[drawn.part_id("cap").unwrap()].length.to_mm(),
        40.0
    );
}

#[test]
fn a_diameter_measured_away_from_every_station_is_only_compared() {
    let design = made("part cap { outside { at 10 dia 15.2 } }");
    let pen = design.pen("redshank-1").unwrap();
    let made = pen.made.as_ref().unwrap();
    assert!(matches!(made.statements[0].what, MadeSize::Between { .. }));
    assert_eq!(pen.parts[pen.part_id("cap").unwrap()].stations.len(), 3);
}

/// Each slip by itself: one error, of this rule, that says this.
#[test]
fn each_slip_is_one_clear_finding() {
    for (lines, rule, words) in SLIPS {
        let design = made(lines);
        let told = told(&design);
        assert_eq!(told.len(), 1, "{lines}\n{told:#?}");
        assert!(
            told[0].starts_with(rule) && told[0].contains(words),
            "{lines}\n{told:#?}"
        );
        assert!(
            design.pen("redshank-1").is_some(),
            "{lines}: the rest is judged"
        );
    }
}

#[test]
fn a_pen_with_errors_or_none_at_all_cannot_be_judged() {
    let broken = PEN.replace("tenon 9.9 for 8", "tenon 9.9 for nothing");
    let of_broken = design(&format!("{broken}made a-1 of redshank {{ }}\n"));
    let about = told(&of_broken)
        .into_iter()
        .filter(|it| it.starts_with("incomplete"));
    assert_eq!(
        about.collect::<Vec<_>>(),
        ["incomplete: redshank has errors as it is drawn, so what was made of it cannot be judged"]
    );
    let of_none = design(&format!("{PEN}made a-1 of redshanks {{ }}\n"));
    assert_eq!(told(&of_none), ["unknown-name: no pen is called redshanks"]);
    let twice = design(&format!(
        "{PEN}made a-1 of redshank {{ }}\nmade a-1 of redshank {{ }}\n"
    ));
    assert!(
        told(&twice)[0].starts_with("duplicate-name"),
        "{:#?}",
        told(&twice)
    );
    let like = design(&format!(
        "{PEN}made a-1 of redshank {{ }}\npen b like a-1 {{ }}\n"
    ));
    assert!(
        told(&like)[0].contains("a-1 is the name of a made pen"),
        "{:#?}",
        told(&like)
    );
}

#[test]
fn names_in_what_was_made_lead_to_the_drawing() {
    let design = made("part cap { from mouth { bore 10 to 12 } }");
    let root = design.root().unwrap();
    for (name, times) in [("redshank {\n  part", 0), ("of redshank", 1)] {
        assert_eq!(root.text.matches(name).count(), times);
    }
    let at = root.text.find("of redshank").unwrap() + 3;
    let place = quillet_syntax::Span::new(root.id, at, at + 8);
    let definition = design.names.at(place).unwrap();
    assert_eq!(&*design.names.definitions[definition].name, "redshank");
    let mouth = root.text.rfind("from mouth").unwrap() + 5;
    let place = quillet_syntax::Span::new(root.id, mouth, mouth + 5);
    let definition = design.names.at(place).unwrap();
    assert_eq!(
        design.names.definitions[definition].owner.as_deref(),
        Some("cap")
    );
}

/// What is written, the rule that tells of it, and a piece of what it says.
const SLIPS: [(&str, &str, &str); 19] = [
    (
        "part lid { length 3 }",
        "unknown-name",
        "no part is called lid",
    ),
    (
        "part spare { length 20 }",
        "not-in-drawing",
        "redshank has no part spare",
    ),
    (
        "part refill { length 30 }",
        "not-in-drawing",
        "refill is bought, not made",
    ),
    (
        "part cap { length 40 }\npart cap { length 40 }",
        "said-twice",
        "a second time",
    ),
    (
        "part cap { length 40 ; length 39 }",
        "said-twice",
        "a second time",
    ),
    (
        "part cap { length 400 }",
        "out-of-range",
        "400 mm was measured where 40 mm is drawn",
    ),
    (
        "part cap { length 900 }",
        "out-of-range",
        "more than any pen has",
    ),
    (
        "part cap { mass 3 }",
        "not-in-drawing",
        "says nothing that was measured",
    ),
    (
        "part cap { from nose { bore 10 to 12 } }",
        "unknown-name",
        "no end called nose",
    ),
    (
        "part cap { from mouth { bore 101 to 12 } }",
        "out-of-range",
        "101 mm was measured where 10 mm",
    ),
    (
        "part cap { from mouth { bore 10 for 12 } }",
        "not-in-drawing",
        "drawn in other words: bore 10 to 12",
    ),
    (
        "part cap { from mouth { bore 10 to 12 ; bore 10 to 12.1 } }",
        "not-in-drawing",
        "no such bore",
    ),
    (
        "part cap { from mouth { ream 10 to 12 } }",
        "not-in-drawing",
        "no such ream",
    ),
    (
        "part cap { from mouth { bore 10 to 41 } }",
        "out-of-range",
        "reaches 41 mm into cap",
    ),
    (
        "part cap { from mouth { bore 1/0 to 12 } }",
        "out-of-range",
        "",
    ),
    (
        "part cap { outside dia 15 }",
        "not-in-drawing",
        "the outside is drawn by stations",
    ),
    (
        "part cap { outside { at 0 dia 150 } }",
        "out-of-range",
        "150 mm was measured where 15 mm",
    ),
    (
        "measured mass(uncapped) 15mm",
        "unit-mismatch",
        "a mass and a length",
    ),
    (
        "measured weight(uncapped) 15",
        "unknown-name",
        "nothing that is measured",
    ),
];
