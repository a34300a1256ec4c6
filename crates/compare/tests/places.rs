//! A finding is known again.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_compare::{Place, places};
use quillet_fixture::EXAMPLES;
use quillet_model::{SourceFile, Texts};
use quillet_pen::Analysis;
use std::collections::BTreeSet;
use std::path::Path;

/// The examples as they ship, one of them with another text.
fn texts(name: &str, text: &str) -> Texts {
    EXAMPLES.into_iter().collect::<Texts>().with(name, text)
}

/// The places of what is found in a file, with the rule, in the findings' order.
fn found(name: &str, text: &str) -> Vec<Place> {
    let source = texts(name, text);
    let analysis = Analysis::of(Path::new(name), &source, None).unwrap();
    let file = |id| analysis.file(id);
    let called = |file: &SourceFile| file.path.display().to_string();
    places(&analysis.examined().findings, &file, &called)
}

fn set(places: Vec<Place>) -> BTreeSet<String> {
    let each: BTreeSet<String> = places.iter().map(ToString::to_string).collect();
    assert_eq!(each.len(), places.len(), "no two findings have one place");
    each
}

fn knot() -> String {
    let knot = EXAMPLES.iter().find(|(name, _)| *name == "knot.quillet");
    knot.unwrap().1.to_owned()
}

#[test]
fn every_finding_of_the_shipped_files_has_a_place_of_its_own() {
    for (name, text) in EXAMPLES {
        let _ = set(found(name, text));
    }
    insta::assert_snapshot!(
        found("knot.quillet", &knot())
            .iter()
            .map(|it| format!("{it}\n"))
            .collect::<String>()
    );
}

#[test]
fn places_outlive_layout_and_comments() {
    let before = set(found("knot.quillet", &knot()));
    let spaced: String = knot()
        .lines()
        .map(|line| format!("\n-- a note\n\t{line}   -- so\n"))
        .collect();
    // A comment within a text's line would be none.
    let spaced = spaced.replace("-- so\n", "\n");
    assert_eq!(set(found("knot.quillet", &spaced)), before);
    let formatted = quillet_syntax::format(&knot());
    assert_eq!(set(found("knot.quillet", &formatted)), before);
}

/// The items of a text, each with the comments above it.
fn items(text: &str) -> Vec<String> {
    let mut items = vec![String::new()];
    let mut depth = 0_usize;
    for line in text.lines() {
        let item = items.last_mut().unwrap();
        item.push_str(line);
        item.push('\n');
        let code = line.split("--").next().unwrap_or("");
        depth += code.matches('{').count();
        depth -= code.matches('}').count();
        if depth == 0 && !code.trim().is_empty() {
            items.push(String::new());
        }
    }
    items
}

#[test]
fn places_outlive_the_order_of_items() {
    let text = knot();
    let before = set(found("knot.quillet", &text));
    let mut items = items(&text);
    assert!(items.len() > 5, "{}", items.len());
    items.reverse();
    // Whatever it uses may stand anywhere.
    assert_eq!(set(found("knot.quillet", &items.concat())), before);
}

#[test]
fn places_outlive_changed_numbers_and_numbers_that_get_a_name() {
    let text = knot();
    let before = found("knot.quillet", &text);
    assert!(before.len() > 10, "{}", before.len());
    for place in &before {
        assert!(
            !place.shape.chars().any(|it| it.is_ascii_digit()),
            "{place}: no number is in it"
        );
    }
    let source = "part cap from mouth to crown {\n  blank of reed rod 14\n  length 60\n  \
        outside dia 12\n  from mouth {\n    drill 11.6 to 50\n  }\n}\n\
        material reed { kind ebonite }\n";
    let changed = source.replace("11.6 to 50", "11.7 to 48.25");
    let named = format!("let bore = 11.7\n{}", source.replace("11.6", "bore"));
    let summed = source.replace("11.6", "min(11.7, 12 - 0.3)");
    let places = set(found("tern.quillet", source));
    assert!(!places.is_empty());
    for other in [changed, named, summed] {
        assert_eq!(set(found("tern.quillet", &other)), places, "{other}");
    }
}

#[test]
fn a_cut_added_ahead_adds_its_own_alone() {
    let source = "part cap from mouth to crown {\n  blank of reed rod 14\n  length 60\n  \
        outside dia 12\n  from mouth {\n    drill 11.6 to 50\n  }\n}\n\
        material reed { kind ebonite }\n";
    let ahead = source.replace("from mouth {\n", "from mouth {\n    drill 11.8 to 20\n");
    let (before, after) = (
        set(found("tern.quillet", source)),
        set(found("tern.quillet", &ahead)),
    );
    assert!(before.is_subset(&after), "{before:#?} {after:#?}");
}
