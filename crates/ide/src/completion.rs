//! What can be written at the cursor.
//!
//! What may stand there the parser says; this fills in the names in scope, the tools at hand
//! and the standard sizes. What each choice means is worked out only when asked for.

mod call;
mod names;
mod rules;
mod sizes;
mod standing;
mod stops;
mod wholes;
mod words;

use crate::documentation_key::DocumentationKey;
use crate::{Analysis, Cursor, Snapshot};
use quillet_syntax::ast::Item;
use quillet_syntax::{Expected, Span, Thing, TokenKind, expected};

/// One choice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What is shown and, without a snippet, written.
    pub label: String,
    /// A snippet to write instead, with stops as `${1:name}`.
    pub snippet: Option<String>,
    /// What it is.
    pub kind: ChoiceKind,
    /// A few words beside the label.
    pub detail: String,
    /// Its place among the others: by rank, then as they come.
    pub rank: u8,
    /// What to ask [`about`] for its documentation.
    pub about: DocumentationKey,
}

/// What a choice is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the variants say it")]
pub enum ChoiceKind {
    Keyword,
    Snippet,
    /// Nothing without its snippet.
    Whole,
    Quantity,
    Material,
    Thread,
    Blank,
    Part,
    Bench,
    Pen,
    Face,
    Size,
    Fit,
    Measure,
    Rule,
    File,
}

/// The choices at a place, and what they would replace.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Completion {
    /// What is being written; empty where nothing is.
    pub replaces: Span,
    /// The choices, the most likely first.
    pub choices: Vec<Choice>,
}

/// What can be written at the cursor.
pub fn complete(snapshot: &Snapshot, cursor: Cursor<'_>) -> Option<Completion> {
    let expected = expected(cursor.file.id, &cursor.file.text, cursor.offset)?;
    let at = CompletionContext {
        cursor,
        expected: &expected,
    };
    let mut choices = words::keywords(at);
    if expected.first {
        choices.extend(wholes::wholes(at));
    }
    for thing in &expected.things {
        offer(*thing, snapshot, at, &mut choices);
    }
    let mut seen = std::collections::BTreeSet::new();
    choices.retain(|choice| seen.insert((choice.label.clone(), choice.snippet.is_some())));
    choices.sort_by_key(|choice| choice.rank);
    Some(Completion {
        replaces: expected.word,
        choices,
    })
}

/// All that can stand for a thing that is expected.
fn offer(thing: Thing, snapshot: &Snapshot, at: CompletionContext<'_>, choices: &mut Vec<Choice>) {
    match thing {
        Thing::Name => choices.extend(names::like_or_override(at)),
        Thing::End => choices.extend(names::ends(at)),
        Thing::StationPlace => {
            choices.extend(names::ends(at));
            choices.extend(names::quantities(at));
        }
        Thing::Face => choices.extend(names::faces(at)),
        Thing::FaceName => choices.extend(names::faces_of_part(at)),
        Thing::Material => choices.extend(names::materials(at)),
        Thing::Kind => choices.extend(names::kinds()),
        Thing::Rule => choices.extend(rules::rules(at)),
        Thing::Part => choices.extend(names::parts(at)),
        Thing::Comparison => choices.extend(words::comparisons()),
        Thing::PatternName => choices.push(words::quoted("pattern")),
        Thing::FinishName => choices.push(words::quoted("finish")),
        Thing::Title => choices.push(words::quoted("title")),
        Thing::Reason => choices.push(words::quoted("reason")),
        Thing::Colour => choices.extend(names::colours()),
        Thing::Bench => choices.extend(names::benches(at)),
        Thing::Pen => choices.extend(names::pens(at)),
        Thing::Date => choices.push(words::quoted("date")),
        Thing::ThreadName => choices.extend(names::threads(at)),
        Thing::Thread => {
            choices.extend(names::threads(at));
            choices.extend(sizes::threads(at));
        }
        Thing::Designation => choices.extend(sizes::threads(at)),
        Thing::Size => {
            choices.extend(names::quantities(at));
            choices.extend(sizes::sizes(at));
            choices.extend(words::functions());
        }
        Thing::Capital => choices.extend(sizes::letters(at)),
        Thing::Fit => choices.extend(sizes::fits()),
        Thing::Measure => choices.extend(call::measured(at)),
        Thing::Path => choices.extend(names::files(snapshot, at)),
        Thing::Length
        | Thing::Diameter
        | Thing::Radius
        | Thing::Angle
        | Thing::Mass
        | Thing::Force
        | Thing::Volume
        | Thing::Quantity
        | Thing::Count
        | Thing::Sum => {
            choices.extend(names::let_materials(at));
            choices.extend(names::quantities(at));
            choices.extend(words::functions());
        }
        _ => {}
    }
}

/// The documentation of a choice, in Markdown.
pub fn about(analysis: &Analysis, about: &DocumentationKey) -> Option<String> {
    crate::hover::about(analysis, about)
}

/// Where choices are wanted.
#[derive(Clone, Copy)]
pub(crate) struct CompletionContext<'a> {
    pub(crate) cursor: Cursor<'a>,
    pub(crate) expected: &'a Expected,
}

impl<'a> CompletionContext<'a> {
    /// The item in whose block the cursor is; one whose brace is still missing goes on to the end
    /// of the file.
    fn item(self) -> Option<&'a Item> {
        let start = self.expected.word.start;
        let items = &self.cursor.file.parsed.tree.items;
        let last = items.iter().rfind(|item| item.span.start < start);
        last.filter(|_| self.expected.place != quillet_syntax::grammar::Place::Item)
    }

    /// The statement's first word.
    fn verb(self) -> Option<&'a str> {
        self.before().last()
    }

    /// The word after that: what is named, where the statement names something.
    fn named(self) -> Option<&'a str> {
        let before: Vec<&str> = self.before().collect();
        before.len().checked_sub(2).map(|at| before[at])
    }

    /// The words and signs of the statement before the cursor, the nearest first.
    fn before(self) -> impl Iterator<Item = &'a str> {
        let start = self.expected.word.start;
        let tokens = &self.cursor.file.parsed.tokens;
        let end = tokens.partition_point(|token| token.span.end <= start);
        tokens[..end]
            .iter()
            .rev()
            .take_while(|token| {
                !token.kind.is_separator()
                    && !matches!(token.kind, TokenKind::Open | TokenKind::Close)
            })
            .filter(|token| !token.kind.is_trivia())
            .map(move |token| self.cursor.text(token.span))
    }
}

impl Choice {
    /// A choice that is written as it is shown.
    fn plain(
        label: impl Into<String>,
        kind: ChoiceKind,
        detail: impl Into<String>,
        about: DocumentationKey,
    ) -> Self {
        Self {
            label: label.into(),
            snippet: None,
            kind,
            detail: detail.into(),
            rank: 2,
            about,
        }
    }

    fn ranked(self, rank: u8) -> Self {
        Self { rank, ..self }
    }

    /// Written with stops to fill in.
    fn snippet(self, snippet: impl Into<String>) -> Self {
        let snippet = Some(snippet.into());
        Self { snippet, ..self }
    }
}
