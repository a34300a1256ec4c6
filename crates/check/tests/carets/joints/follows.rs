//! What only follows from another fault, or from what could not be read, is not told.

use super::broken;
use super::sketch::{RELIEF, pen};
use crate::examined;
use quillet_syntax::Severity;

#[test]
fn what_follows_from_a_jam_is_not_told() {
    // Without its relief the tenon jams in the barrel's mouth; so the step behind it shows.
    assert_eq!(broken(&pen("", "69", "56")), ["stops-early"]);
    assert_eq!(broken(&pen(RELIEF, "69", "56")), [""; 0]);
}

#[test]
fn what_could_not_be_read_is_told_of_and_not_what_follows() {
    let clean = pen(RELIEF, "69", "56");
    let errors = |text: &str| -> Vec<(&'static str, String)> {
        let found = examined(text).findings;
        let errors = found
            .into_iter()
            .filter(|it| it.severity == Severity::Error);
        errors
            .map(|it| (it.rule.code(), it.message.to_string()))
            .collect()
    };
    assert!(errors(&clean).is_empty());
    for (from, to, rules) in [
        // A length left out, of the wrong kind, or in the wrong unit.
        ("length 64", "length", &["syntax"][..]),
        ("length 64", "length 64g", &["unit-mismatch"]),
        ("length 64", "length 64in", &["out-of-range"]),
        ("rod 18", "rod 18in", &["out-of-range"]),
        ("drill 12.2", "dril 12.2", &["syntax"]),
        ("cap from mouth to crown", "cap", &["syntax"]),
        (
            "M13x0.8 starts 3",
            "M13x0.8 starts three",
            &["unknown-name"],
        ),
        ("M10x0.75", "M10x", &["syntax"]),
        ("from mouth to crown", "from mouth", &["syntax"]),
        ("screw section.shank", "skrew section.shank", &["syntax"]),
        ("close cap.mouth", "close cap", &["syntax"]),
        ("at 22 dia 11.2", "at 22 dia", &["incomplete"]),
        ("at 22 dia 11.2", "at 22 dia waist", &["unknown-name"]),
    ] {
        let text = clean.replacen(from, to, 1);
        assert_ne!(text, clean);
        let found = errors(&text);
        let reported: Vec<&str> = found.iter().map(|it| it.0).collect();
        assert_eq!(reported, rules, "{to}: {found:#?}");
    }
}
