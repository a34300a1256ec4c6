//! What may stand at a place.

use crate::asked::{PEN, at, in_pen};

#[test]
fn completion_knows_the_words_of_its_place() {
    assert!(
        at("let a = 1\n|")
            .labels()
            .starts_with(&["use".into(), "let".into()])
    );
    assert_eq!(in_pen("from mouth {\n", "    dr|\n").labels()[1], "drill");
    assert!(at("-- a no|te").labels().is_empty());
}

#[test]
fn completion_knows_the_names_in_scope_and_no_others() {
    let threads = in_pen("from mouth {\n", "    thread |\n").labels();
    assert_eq!(threads[0], "closing");
    assert!(!threads.contains(&"cap".into()));
    assert_eq!(
        in_pen("from mouth {\n", "  }\n  from |\n").labels(),
        ["crown", "mouth"],
        "that from which nothing is cut yet comes first"
    );
    let faces = at(&format!("{PEN}pen heron {{\n  screw |\n}}\n")).labels();
    assert!(faces.contains(&"cap.mouth".into()) && faces.contains(&"unit.heel".into()));
    let faces = at(&format!("{PEN}pen heron {{\n  screw unit.|\n}}\n")).labels();
    assert_eq!(faces, ["point", "heel"]);
    assert!(in_pen("blank of ", "|").labels().contains(&"reed".into()));
    assert_eq!(at("use |\n").labels(), ["\"shared.quillet\""]);
    assert_eq!(at("use \"|\"\n").labels(), ["\"shared.quillet\""]);
}

#[test]
fn completion_offers_sizes_and_measures() {
    let drills = in_pen("from mouth {\n", "    drill |\n").labels();
    assert!(drills.contains(&"11.2".into()), "ISO 235 lists 11.2 mm");
    assert!(drills.contains(&"grip".into()));
    // A bored hole is of any size; a number drill begins with its sign.
    let bores = in_pen("from mouth {\n", "    bore |\n").labels();
    assert_eq!(bores, ["grip", "min", "max"]);
    let numbered = in_pen("from mouth {\n", "    drill #|\n").labels();
    assert!(numbered.contains(&"#7".into()) && !numbered.contains(&"11.2".into()));
    let wants = want("|");
    assert!(wants.contains(&"balance".into()) && wants.contains(&"grip".into()));
    assert_eq!(want("mass(|"), STATES);
    let tests = ["<=", ">=", "within", "="];
    assert_eq!(want("length(capped) |"), tests);
}

/// The states of a pen.
const STATES: [&str; 5] = ["capped", "uncapped", "posted", "retracted", "resting"];

/// What is offered at `|` of a `want` in a pen.
fn want(written: &str) -> Vec<String> {
    at(&format!("{PEN}pen heron {{\n  want {written}\n}}\n")).labels()
}

#[test]
fn completion_knows_what_a_measure_takes() {
    assert_eq!(want("wall(|"), ["unit", "cap"]);
    assert_eq!(want("diameter(cap, |"), ["grip"]);
    assert_eq!(want("clearance(cap, |"), ["unit", "cap"]);
    assert_eq!(want("clearance(cap, unit, |"), STATES);
    assert!(want("distance(|").contains(&"cap.crown".into()));
    assert_eq!(want("distance(cap.|"), ["mouth", "crown"]);
    assert!(want("distance(cap.mouth, |").contains(&"unit.heel".into()));
    // Plain parentheses hold a sum of measures together.
    assert!(want("(mass(capped) + |").contains(&"mass".into()));
}

#[test]
fn completion_offers_quantities_and_materials_each_in_their_place() {
    let body = PEN.replace("let grip", "let body = reed\nlet grip");
    let asked = |before: &str, after: &str| {
        let place = body.find(before).unwrap() + before.len();
        at(&format!("{}{after}{}", &body[..place], &body[place..])).labels()
    };
    let materials = asked("blank of ", "|");
    assert!(materials.contains(&"body".into()) && !materials.contains(&"grip".into()));
    assert_eq!(asked("length ", "|"), ["grip", "min", "max"]);
    // Nothing is told by itself, nor like itself.
    assert_eq!(
        at(&format!("{body}let a = |\n")).labels(),
        ["reed", "body", "grip", "min", "max"]
    );
    // A sum that was begun is of quantities.
    assert_eq!(
        at(&format!("{body}let a = 2 + |\n")).labels(),
        ["grip", "min", "max"]
    );
    assert_eq!(
        at(&format!("{body}part a like |\n")).labels(),
        ["unit", "cap"]
    );
}

#[test]
fn completion_in_a_joint_keeps_to_its_two_parts() {
    const LINER: &str = "part liner from front to back {\n  length 20\n}\n";
    let joint =
        |written: &str| at(&format!("{PEN}{LINER}pen heron {{\n  {written}\n}}\n")).labels();
    let second = joint("glue liner.front into |");
    assert!(second.contains(&"cap.mouth".into()) && !second.contains(&"liner.back".into()));
    assert_eq!(
        joint("glue liner.front into cap.mouth {\n    seat |\n  }"),
        ["cap.mouth", "cap.crown", "liner.front", "liner.back"]
    );
    assert_eq!(joint("glue liner.front into cap.mouth through |"), ["unit"]);
    assert_eq!(
        joint("glue liner.front into cap.mouth |"),
        ["by", "gap", "through", "before"]
    );
    assert_eq!(joint("push liner.front onto cap.mouth |"), ["by"]);
}

#[test]
fn completion_offers_the_rules_that_can_be_said() {
    let limits = at("limit |\n").labels();
    assert!(limits.contains(&"thin-wall".into()) && !limits.contains(&"unknown-name".into()));
    let thin = PEN.replace("drill 12.2 to 54", "drill 14.4 to 54");
    let asked = at(&thin.replace("  from mouth {", "  accept |\n  from mouth {"));
    // What was found in this part comes first.
    assert!(
        asked.labels()[..3].contains(&"thin-wall".into()),
        "{:?}",
        asked.labels()
    );
    assert!(!asked.labels().contains(&"broken-through".into()));
}

#[test]
fn completion_knows_its_part_before_the_braces_are_closed() {
    let open = "part a from left to right {\n  let rim = 2\n  outside {\n    ";
    assert_eq!(
        at(&format!("{open}at |")).labels()[..3],
        ["left", "right", "rim"]
    );
    assert_eq!(
        at(&format!("{open}at 0 dia 3\n  }}\n  from |")).labels(),
        ["left", "right"]
    );
    assert!(
        !at(&format!("{open}|"))
            .labels()
            .contains(&"dimensions in inches".into())
    );
}

#[test]
fn completion_begins_a_file_and_whole_items() {
    assert!(at("|").labels().contains(&"dimensions in inches".into()));
    assert!(
        !at("let a = 1\n|")
            .labels()
            .contains(&"dimensions in inches".into())
    );
    assert!(at("|").labels().contains(&"part, whole".into()));
    assert_eq!(at("thread |\n").labels(), [""; 0]);
    let usual = at("thread a = |\n").labels();
    let place = |size: &str| usual.iter().position(|label| label == size).unwrap();
    assert!(place("M13x0.8") < place("M10x1"));
}
