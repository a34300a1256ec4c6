//! What differs, for people at a terminal.

use super::words::{self, Row};
use quillet_compare::{Comparison, FileChange, PenChange, PenState};
use std::collections::BTreeSet;

/// Where what a row says begins, in letters.
const COLUMN: usize = 24;

/// Files first that are of no pen alone, then pens, then the rest in one line.
pub(super) fn text(it: &Comparison) -> String {
    let mut out = String::new();
    let homes: BTreeSet<&str> = it.changed().map(|pen| pen.file.as_str()).collect();
    for file in it
        .files
        .iter()
        .filter(|file| !homes.contains(file.name.as_str()))
    {
        for (item, lines) in words::written(&file.changes) {
            for line in lines {
                out += &format!("{}: {item}: {line}\n", file.name);
            }
        }
        let found = file.reported();
        found.for_each(|it| out += &format!("{}: {}\n", file.name, words::finding(it, None)));
    }
    let mut files: BTreeSet<&str> = BTreeSet::new();
    let mut others = 0;
    for pen in &it.pens {
        let at_home = homes.contains(pen.file.as_str());
        if words::is_plain(pen) && !at_home {
            others += 1;
            continue;
        }
        out += &head(pen);
        if matches!(pen.state, PenState::Same | PenState::Written) {
            continue;
        }
        if files.insert(&pen.file) {
            let own = it.files.iter().find(|it| it.name == pen.file);
            let own = own.map(|it| words::written(&it.changes));
            rows(&mut out, &own.unwrap_or_default());
            let of_none = it.files.iter().filter(|it| it.name == pen.file);
            let of_none = of_none.flat_map(FileChange::reported);
            let lines = of_none.map(|it| words::finding(it, None));
            rows(&mut out, &row("found in it", lines.collect()));
        }
        body(&mut out, pen);
    }
    out += match (others, it.pens.len()) {
        (0, 0) if it.files.is_empty() => "nothing differs; there is no pen here\n",
        (0, _) => "",
        (others, all) if others == all => "every pen: the same\n",
        _ => "every other pen: the same\n",
    };
    out
}

fn head(pen: &PenChange) -> String {
    let head = format!("{}: {}", pen.name, words::state(pen));
    match (pen.state, words::touched(pen)) {
        (PenState::Changed, parts) if !parts.is_empty() => {
            format!("{head:COLUMN$}{}{}\n", gap(&head), parts.join(", "))
        }
        _ => head + "\n",
    }
}

fn body(out: &mut String, pen: &PenChange) {
    let effects = words::effects(pen);
    rows(out, &effects);
    // Of a pen of which nothing is known, as in an unfinished merge, nothing is the same either.
    let is_known = !effects.is_empty() || !pen.steps.is_empty();
    let findings = pen.reported().map(|it| words::finding(it, Some(&pen.name)));
    let findings: Vec<String> = findings.collect();
    rows(
        out,
        &match findings.is_empty() {
            true if pen.state == PenState::Changed && is_known => {
                row("findings", vec!["the same".to_owned()])
            }
            _ => row("findings", findings),
        },
    );
    rows(
        out,
        &row("sheet", pen.steps.iter().map(words::step).collect()),
    );
}

fn row(label: &str, lines: Vec<String>) -> Vec<Row> {
    match lines.is_empty() {
        true => Vec::new(),
        false => vec![(label.to_owned(), lines)],
    }
}

fn rows(out: &mut String, rows: &[Row]) {
    for (label, lines) in rows {
        let mut label = format!("  {label}");
        for line in lines {
            *out += &format!("{label:COLUMN$}{}{line}\n", gap(&label));
            label.clear();
        }
    }
}

/// A label too long takes two blanks and moves nothing else.
fn gap(label: &str) -> &'static str {
    match label.chars().count() >= COLUMN {
        true => "  ",
        false => "",
    }
}
