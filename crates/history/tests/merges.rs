//! Two branches that change one statement each, a few lines apart, put together by git: with every
//! column in its place a change is its own lines, so none of these merges needs a hand.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_fixture::{EXAMPLES, Random};
use quillet_history::merged;
use quillet_syntax::format;
use std::path::Path;

/// So many pairs of changes are merged.
const PAIRS: usize = 400;

/// A whole number from 0, below another.
fn below(chance: &mut Random, most: usize) -> usize {
    ((chance.share() * most as f64) as usize).min(most - 1)
}

/// The lines of a text that hold a statement with a figure in it.
fn figured(lines: &[&str]) -> Vec<usize> {
    let is_one = |line: &str| {
        let code = line.split("--").next().unwrap_or("");
        code.contains(|it: char| it.is_ascii_digit()) && !code.contains('"')
    };
    (0..lines.len()).filter(|at| is_one(lines[*at])).collect()
}

/// A line with its first figure so much longer: `dia 12` becomes `dia 12.375`.
fn longer(line: &str, digits: &str) -> String {
    let from = line
        .find(|it: char| it.is_ascii_digit())
        .unwrap_or(line.len());
    let rest = &line[from..];
    let to = rest.find(|it: char| !it.is_ascii_digit() && it != '.');
    let (figure, rest) = rest.split_at(to.unwrap_or(rest.len()));
    let point = if figure.contains('.') { "" } else { "." };
    format!("{}{figure}{point}{digits}{rest}", &line[..from])
}

/// The canonical text with some of its lines replaced.
fn edited(lines: &[&str], edits: &[(usize, &str)]) -> String {
    let each = lines.iter().enumerate().map(|(at, line)| {
        let own = edits.iter().find(|it| it.0 == at);
        own.map_or((*line).to_owned(), |it| longer(line, it.1)) + "\n"
    });
    format(&each.collect::<String>())
}

/// What git makes of two texts that come from one, and whether it needed no hand.
fn put_together(folder: &Path, base: &str, ours: &str, theirs: &str) -> (String, bool) {
    let write = |name: &str, text: &str| {
        let path = folder.join(name);
        std::fs::write(&path, text).unwrap();
        path
    };
    let paths = [("base", base), ("ours", ours), ("theirs", theirs)];
    let [base, ours, theirs] = paths.map(|(name, text)| write(name, text));
    let (text, clean) = merged(&base, &ours, &theirs, 7).unwrap();
    (String::from_utf8(text).unwrap(), clean)
}

/// How many lines differ between two texts of as many lines.
fn differing(old: &str, new: &str) -> usize {
    assert_eq!(old.lines().count(), new.lines().count());
    old.lines().zip(new.lines()).filter(|(a, b)| a != b).count()
}

#[test]
fn two_changes_a_few_lines_apart_merge_without_a_hand() {
    let folder = tempfile::tempdir().unwrap();
    let mut chance = Random(7);
    let (mut by_hand, mut changed) = (0, 0);
    let mut done = 0;
    while done < PAIRS {
        let (name, text) = EXAMPLES[below(&mut chance, EXAMPLES.len())];
        let base = format(text);
        let lines: Vec<&str> = base.lines().collect();
        let places = figured(&lines);
        let one = places[below(&mut chance, places.len())];
        let other = one + 3 + below(&mut chance, 7);
        if !places.contains(&other) {
            continue;
        }
        done += 1;
        let digits = ["5", "25", "375", "0625", "000000"];
        let own = (one, digits[below(&mut chance, digits.len())]);
        let their = (other, digits[below(&mut chance, digits.len())]);
        let (ours, theirs) = (edited(&lines, &[own]), edited(&lines, &[their]));
        changed += differing(&base, &ours) + differing(&base, &theirs);
        let (text, clean) = put_together(folder.path(), &base, &ours, &theirs);
        by_hand += usize::from(!clean);
        if clean {
            assert_eq!(
                text,
                edited(&lines, &[own, their]),
                "{name}: {own:?}, {their:?}"
            );
        }
    }
    // With columns as wide as the longest cell of a block 8 of these 400 did, and 1,151 lines changed.
    assert_eq!((by_hand, changed), (0, 2 * PAIRS));
}
