//! What can be written at a place.

use crate::opened::Opened;
use quillet_ide::{ChoiceKind, DocumentationKey};
use serde::Serialize;

/// The choices, the most likely first, and what they replace.
#[derive(Serialize)]
pub(super) struct CompletionAnswer {
    from: usize,
    to: usize,
    choices: Vec<ChoiceAnswer>,
}

#[derive(Serialize)]
struct ChoiceAnswer {
    label: String,
    /// With stops as `${1:name}`.
    snippet: Option<String>,
    kind: &'static str,
    detail: String,
    about: DocumentationKey,
}

/// How a statement is written, and the phrase of it that comes next.
#[derive(Serialize)]
pub(super) struct SignatureAnswer {
    form: &'static str,
    help: &'static str,
    /// From where to where in the form, in UTF-16 units.
    active: Option<(usize, usize)>,
}

/// What can be written at a place.
pub(super) fn complete(open: &Opened, at: usize) -> Option<CompletionAnswer> {
    let found = quillet_ide::complete(&open.snapshot, open.cursor(at)?)?;
    let (from, to) = open.here(found.replaces);
    let choices = found.choices.into_iter().map(|it| ChoiceAnswer {
        label: it.label,
        snippet: it.snippet,
        kind: kind(it.kind),
        detail: it.detail,
        about: it.about,
    });
    Some(CompletionAnswer {
        from,
        to,
        choices: choices.collect(),
    })
}

/// What is to be known of a choice, in Markdown.
pub(super) fn about(open: &Opened, about: &DocumentationKey) -> Option<String> {
    quillet_ide::about(&open.analysis, about)
}

/// How the statement at a place is written.
pub(super) fn signature(open: &Opened, at: usize) -> Option<SignatureAnswer> {
    let found = quillet_ide::signature(open.cursor(at)?)?;
    let units = |byte: usize| found.form[..byte].encode_utf16().count();
    let active = found.active.and_then(|it| found.phrases.get(it));
    Some(SignatureAnswer {
        form: found.form,
        help: found.help,
        active: active.map(|(from, to)| (units(*from), units(*to))),
    })
}

fn kind(kind: ChoiceKind) -> &'static str {
    match kind {
        ChoiceKind::Keyword => "keyword",
        ChoiceKind::Snippet | ChoiceKind::Whole => "form",
        ChoiceKind::Quantity | ChoiceKind::Size | ChoiceKind::Fit => "size",
        ChoiceKind::Material | ChoiceKind::Blank => "material",
        ChoiceKind::Thread => "thread",
        ChoiceKind::Part | ChoiceKind::Face => "part",
        ChoiceKind::Bench | ChoiceKind::File => "file",
        ChoiceKind::Pen => "pen",
        ChoiceKind::Measure => "measure",
        ChoiceKind::Rule => "rule",
    }
}
