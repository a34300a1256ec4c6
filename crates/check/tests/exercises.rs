//! The exercises: each holds exactly the rules that the table of their page says, and the one number it
//! names cures it.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_check::check;
use quillet_fixture::EXAMPLES;
use quillet_model::{Texts, load, resolve};
use quillet_syntax::format;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/exercises")
}

/// A row of the page's table.
struct Exercise {
    name: String,
    written: String,
    cure: String,
    rules: BTreeSet<String>,
}

/// `| file | what is written | what cures it | what is found | what to learn |`, in backquotes.
fn exercises() -> Vec<Exercise> {
    let page = std::fs::read_to_string(folder().join("README.md")).unwrap();
    let rows = page.lines().filter(|it| it.starts_with("| `"));
    let quoted = |cell: &str| -> Vec<String> {
        let inside = cell.split('`').skip(1).step_by(2);
        inside.map(str::to_owned).collect()
    };
    let each = rows.map(|row| {
        let cells: Vec<_> = row.trim_matches('|').split('|').map(quoted).collect();
        Exercise {
            name: cells[0][0].clone(),
            written: cells[1][0].clone(),
            cure: cells[2][0].clone(),
            rules: cells[3].iter().cloned().collect(),
        }
    });
    each.collect()
}

/// The rules of what is found in an exercise, read as if it stood beside what it uses.
fn rules_of(name: &str, text: &str) -> BTreeSet<String> {
    let text = text.replace("\"../", "\"");
    let texts = Texts::from_iter(EXAMPLES).with(name, &text);
    let design = resolve(&load(Path::new(name), &texts).unwrap());
    let found = check(&design);
    found.iter().map(|it| it.rule.to_string()).collect()
}

/// The text with its blanks each one space, a line a line.
fn tight(text: &str) -> String {
    let lines = text
        .lines()
        .map(|it| it.split_whitespace().collect::<Vec<_>>().join(" "));
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn each_holds_the_rules_of_the_table_and_the_number_cures_it() {
    for it in exercises() {
        let text = std::fs::read_to_string(folder().join(&it.name)).unwrap();
        assert_eq!(format(&text), text, "{} stands in its one form", it.name);
        assert_eq!(rules_of(&it.name, &text), it.rules, "{}", it.name);
        let tight = tight(&text);
        assert_eq!(
            tight.matches(&it.written).count(),
            1,
            "{}: {}",
            it.name,
            it.written
        );
        let cured = tight.replace(&it.written, &it.cure);
        assert_eq!(
            rules_of(&it.name, &cured),
            BTreeSet::new(),
            "{} is cured",
            it.name
        );
    }
}

#[test]
fn the_table_has_every_file_and_no_file_says_its_rule() {
    let all = exercises();
    let here = std::fs::read_dir(folder()).unwrap();
    let here: BTreeSet<_> = here
        .map(|it| it.unwrap().file_name().into_string().unwrap())
        .filter(|it| it != "README.md")
        .collect();
    let told: BTreeSet<_> = all.iter().map(|it| it.name.clone()).collect();
    assert_eq!((told, all.len()), (here, 12));
    for it in all {
        let text = std::fs::read_to_string(folder().join(&it.name)).unwrap();
        let task = text.lines().map_while(|it| it.strip_prefix("-- "));
        let task = task.collect::<Vec<_>>().join(" ");
        assert!(task.contains("change one number"), "{}: {task}", it.name);
        for rule in &it.rules {
            assert!(
                !text.split("\npen ").next().unwrap().contains(rule.as_str()),
                "{} says {rule}",
                it.name
            );
        }
    }
}
