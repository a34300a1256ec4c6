//! Words of the language.

use super::standing::{Likelihood, Standing};
use super::stops::Stops;
use super::{Choice, ChoiceKind, CompletionContext, DocumentationKey};
use crate::forms;
use quillet_syntax::grammar::{self, WORDS, Word};

/// The words that may stand at the cursor; those that begin a statement also with the rest of it.
pub(super) fn keywords(at: CompletionContext<'_>) -> Vec<Choice> {
    let mut choices = Vec::new();
    if at.expected.first && at.expected.place == grammar::Place::Item && is_first_line(at) {
        choices.extend(grammar::at(grammar::Place::File).take(1).map(|word| {
            Choice::plain(word.example, ChoiceKind::Keyword, word.help, about(word)).ranked(1)
        }));
    }
    if at.expected.first {
        choices.extend(lines(at));
        return choices;
    }
    for word in &at.expected.words {
        if word.place != grammar::Place::Want && !is_another_verbs(at, word) {
            choices.push(keyword(word).ranked(1));
        }
    }
    choices
}

/// The words that may begin a line here, each with the rest of it: what the block lacks first, then what
/// is usual, then what judges it.
fn lines(at: CompletionContext<'_>) -> Vec<Choice> {
    let standing = Standing::of(at);
    let line = |word: &&'static Word| {
        let rank = match standing.likelihood(word.text)? {
            Likelihood::Lacking => 0,
            Likelihood::Usual => 1,
            Likelihood::Late => 3,
        };
        let form = forms::form(word.place, word.text).filter(|form| form.line.contains(' '));
        let Some(form) = form else {
            return Some(keyword(word).ranked(rank));
        };
        let bare = Choice::plain(word.text, ChoiceKind::Snippet, form.line, about(word));
        let mut stops = Stops::of(at, word.text);
        Some(
            bare.snippet(form.snippet(&mut |slot| stops.choices(slot)))
                .ranked(rank),
        )
    };
    at.expected.words.iter().filter_map(line).collect()
}

/// Whether nothing stands before the cursor, notes aside.
fn is_first_line(at: CompletionContext<'_>) -> bool {
    let items = &at.cursor.file.parsed.tree.items;
    let dimensions = at.cursor.file.parsed.tree.inches.is_some();
    let mut before = items.iter();
    !dimensions && before.all(|item| item.span.end >= at.expected.word.start)
}

/// Whether a joint's option goes with other verbs than this joint's.
fn is_another_verbs(at: CompletionContext<'_>, word: &Word) -> bool {
    let form = at
        .verb()
        .and_then(|verb| forms::form(grammar::Place::Pen, verb));
    word.place == grammar::Place::JointTail && form.is_some_and(|form| !form.has(word.text))
}

/// Measures and functions, with what goes in their parentheses.
pub(super) fn measures() -> Vec<Choice> {
    grammar::at(grammar::Place::Measure).map(measure).collect()
}

/// What any sum may hold: the least and the greatest of several.
pub(super) fn functions() -> impl Iterator<Item = Choice> {
    let functions = grammar::at(grammar::Place::Measure);
    functions
        .filter(|word| matches!(word.text, "min" | "max"))
        .map(|word| measure(word).ranked(3))
}

/// The states of a pen.
pub(super) fn configurations() -> Vec<Choice> {
    grammar::at(grammar::Place::Configuration)
        .map(|word| keyword(word).ranked(0))
        .collect()
}

/// How what is measured may be held against what is wanted.
pub(super) fn comparisons() -> Vec<Choice> {
    const COMPARISONS: [(&str, &str, &str); 4] = [
        ("<=", "<= ${1:most}", "at most"),
        (">=", ">= ${1:least}", "at least"),
        (
            "within",
            "within ${1:least}..${2:most}",
            "between two values",
        ),
        (
            "=",
            "= ${1:value} +- ${2:tolerance}",
            "so much, give or take",
        ),
    ];
    let choices = COMPARISONS.map(|(label, snippet, detail)| {
        Choice::plain(
            label,
            ChoiceKind::Keyword,
            detail,
            DocumentationKey::Nothing,
        )
        .snippet(snippet)
        .ranked(0)
    });
    choices.into()
}

/// A text in quotes that is still to be written.
pub(super) fn quoted(what: &str) -> Choice {
    let choice = Choice::plain(
        format!("\"{what}\""),
        ChoiceKind::Snippet,
        "in quotes",
        DocumentationKey::Nothing,
    );
    choice.snippet(format!("\"${{1:{what}}}\""))
}

fn keyword(word: &Word) -> Choice {
    Choice::plain(word.text, ChoiceKind::Keyword, word.help, about(word))
}

fn measure(word: &'static Word) -> Choice {
    let inside = arguments(word.text);
    Choice::plain(word.text, ChoiceKind::Measure, word.help, about(word))
        .snippet(format!("{}{inside}", word.text))
        .ranked(1)
}

/// What stands in a measure's parentheses, as a snippet.
fn arguments(measure: &str) -> &'static str {
    match measure {
        "length" | "mass" | "balance" => "(${1|uncapped,capped,posted|})",
        "wall" => "(${1:part})",
        "diameter" => "(${1:part}, ${2:station})",
        "clearance" => "(${1:part}, ${2:part}, ${3|capped,uncapped,posted|})",
        "distance" => "(${1:part.face}, ${2:part.face})",
        "min" | "max" => "(${1:a}, ${2:b})",
        _ => "",
    }
}

fn about(word: &Word) -> DocumentationKey {
    WORDS
        .iter()
        .position(|other| other == word)
        .map_or(DocumentationKey::Nothing, DocumentationKey::Word)
}
