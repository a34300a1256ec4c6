//! Words of the language.

use super::{About, Choice, ChoiceKind, Place};
use crate::forms;
use quillet_syntax::words::{self, WORDS, Word};

/// The words that may stand at the cursor; those that begin a statement also with the rest of it.
pub(super) fn keywords(at: Place<'_>) -> Vec<Choice> {
    let mut choices = Vec::new();
    for word in &at.expected.words {
        if at.expected.first
            && let Some(form) = forms::form(word.place, word.text)
            && form.line.contains(' ')
        {
            choices.push(Choice {
                label: word.text.into(),
                snippet: Some(form.snippet()),
                kind: ChoiceKind::Snippet,
                detail: form.line.into(),
                rank: 1,
                about: about(word),
            });
        } else {
            choices.push(
                Choice::plain(word.text, ChoiceKind::Keyword, word.help, about(word)).ranked(1),
            );
        }
    }
    choices
}

/// Measures and functions, with what goes in their parentheses.
pub(super) fn measures(at: Place<'_>) -> Vec<Choice> {
    if at.before().next() == Some("(") && at.before().nth(1).is_some_and(takes_state) {
        let states = words::at(words::Place::Configuration);
        return states
            .map(|word| {
                Choice::plain(word.text, ChoiceKind::Keyword, word.help, about(word)).ranked(0)
            })
            .collect();
    }
    let measures = words::at(words::Place::Measure).map(|word| {
        let inside = arguments(word.text);
        Choice {
            label: word.text.into(),
            snippet: Some(format!("{}{inside}", word.text)),
            kind: ChoiceKind::Measure,
            detail: word.help.into(),
            rank: 1,
            about: about(word),
        }
    });
    measures.collect()
}

fn takes_state(measure: &str) -> bool {
    matches!(measure, "length" | "mass" | "balance")
}

/// What stands in a measure's parentheses, as a snippet.
fn arguments(measure: &str) -> &'static str {
    match measure {
        "length" | "mass" | "balance" => "(${1|uncapped,capped,posted|})",
        "wall" => "(${1:part})",
        "diameter" => "(${1:part}, ${2:station})",
        "clearance" => "(${1:part}, ${2:part}, ${3:part})",
        "distance" => "(${1:part.face}, ${2:part.face})",
        "min" | "max" => "(${1:a}, ${2:b})",
        _ => "",
    }
}

fn about(word: &Word) -> About {
    WORDS
        .iter()
        .position(|other| other == word)
        .map_or(About::Nothing, About::Word)
}
