//! What editors ask of the compiled grammar, where it follows from the words and the blocks: colours,
//! folds, indentation. A node has one colour, so that it is no matter which rule an editor takes last.

use crate::rules::{places, rule_of};
use quillet_syntax::grammar::{Place, WORDS, statements};
use std::collections::BTreeSet;

const WRITTEN: &str =
    "; Written from the statements by crates/syntax/tests/grammar; do not edit.\n";

/// What does not follow from the words.
const COLOURS: &str = include_str!("colours.scm");

/// `highlights.scm`.
pub(crate) fn highlights() -> String {
    use Place::*;
    let words = words(|place| !matches!(place, Unit | Measure | Configuration));
    // A statement of one word is a node of its own name.
    let alone = statements().filter(|it| it.rule == it.word());
    let words = alone.fold(words, |words, it| {
        words.replace(&format!("\"{}\"", it.word()), &format!("({})", it.word()))
    });
    let keywords = format!("\n[\n{words}] @keyword\n\n");
    let measures = words_in_line(Measure);
    let states = words_in_line(Configuration);
    let colours = COLOURS
        .replace("MEASURES", &measures)
        .replace("STATES", &states);
    format!("{WRITTEN}{keywords}{colours}")
}

/// `highlights.scm` for an editor whose themes know fewer names, each colour by the first of its names.
pub(crate) fn highlights_as(names: &[(&str, &str)]) -> String {
    names.iter().fold(highlights(), |text, (ours, theirs)| {
        text.replace(&format!("@{ours}\n"), &format!("@{theirs}\n"))
            .replace(&format!("@{ours})"), &format!("@{theirs})"))
    })
}

/// `folds.scm`.
pub(crate) fn folds() -> String {
    format!("{WRITTEN}{} @fold\n", blocks())
}

/// `indents.scm`, whose captures are named otherwise from editor to editor.
pub(crate) fn indents(within: &str, end: &str) -> String {
    format!("{WRITTEN}{} @{within}\n\n\"}}\" {end}\n", blocks())
}

/// Indentation where the end of a block is named within it.
pub(crate) fn indents_to_the_end() -> String {
    format!("{WRITTEN}(_ \"{{\" \"}}\" @end) @indent\n")
}

fn blocks() -> String {
    let each = places().filter(|it| *it != Place::Item);
    let each: String = each
        .map(|it| format!("  ({}_block)\n", rule_of(it)))
        .collect();
    format!("[\n{each}]")
}

/// A word a line, each once.
fn words(wanted: impl Fn(Place) -> bool) -> String {
    let each = WORDS.iter().filter(|it| wanted(it.place)).map(|it| it.text);
    let each: BTreeSet<_> = each.collect();
    each.iter().map(|it| format!("  \"{it}\"\n")).collect()
}

fn words_in_line(place: Place) -> String {
    let lines = words(|it| it == place);
    lines.split_whitespace().collect::<Vec<_>>().join(" ")
}
