//! Names in scope.

use super::{About, Choice, ChoiceKind, Place};
use crate::Snapshot;
use quillet_model::{Definition, NameKind};
use quillet_standards::material;
use quillet_syntax::words;
use std::path::Path;

/// What a new item is like, or the quantity a pen overrides, or stock by its name.
pub(super) fn like_or_override(at: Place<'_>) -> Vec<Choice> {
    let before: Vec<&str> = at.before().take(8).collect();
    let own = at.expected.place;
    match before.as_slice() {
        ["like", ..] if before.contains(&"pen") => named(at, &[NameKind::Pen]),
        ["like", ..] => named(at, &[NameKind::Part, NameKind::Bought]),
        ["let", ..] if own == words::Place::Pen => named(at, &[NameKind::Let]),
        ["blank", ..] if own == words::Place::Part => named(at, &[NameKind::Blank]),
        _ => Vec::new(),
    }
}

/// The ends of the part the cursor is in.
pub(super) fn ends(at: Place<'_>) -> Vec<Choice> {
    let inside = at.cursor.offset;
    let design = &at.cursor.analysis.design;
    let mut parts = design
        .parts
        .iter()
        .filter(|part| part.span.file == at.cursor.file.id);
    let part = parts.find(|part| part.span.touches(inside));
    let ends = part
        .and_then(|part| part.ends.as_ref())
        .into_iter()
        .flatten();
    ends.map(|end| face(end.text.to_string(), "an end of this part").ranked(0))
        .collect()
}

/// Every face of every part, as a joint names it.
pub(super) fn faces(at: Place<'_>) -> Vec<Choice> {
    let parts = &at.cursor.analysis.design.parts;
    let faces = parts.iter().flat_map(|part| {
        part.faces.iter().map(move |found| {
            let label = format!("{}.{}", part.name.text, found.name.text);
            let detail = match found.end {
                Some(_) => "an end",
                None => "a named face",
            };
            face(label, detail).ranked(if found.end.is_some() { 1 } else { 2 })
        })
    });
    faces.collect()
}

/// The faces of the part named before the dot.
pub(super) fn faces_of_part(at: Place<'_>) -> Vec<Choice> {
    let mut before = at.before();
    let name = before.find(|word| *word != ".");
    let part = name.and_then(|name| at.cursor.analysis.design.part(name));
    let faces = part.into_iter().flat_map(|part| &part.faces);
    faces
        .map(|found| {
            let detail = format!("at {}", found.at);
            face(found.name.text.to_string(), &detail).ranked(0)
        })
        .collect()
}

/// Materials of the design, then the built-in kinds.
pub(super) fn materials(at: Place<'_>) -> Vec<Choice> {
    let mut choices = named(at, &[NameKind::Material]);
    let lets = named(at, &[NameKind::Let]);
    choices.extend(lets);
    choices.extend(kinds().into_iter().map(|kind| kind.ranked(3)));
    choices
}

/// The built-in kinds of material.
pub(super) fn kinds() -> Vec<Choice> {
    material::all()
        .map(|kind| {
            let about = About::Kind(kind.kind().to_owned());
            Choice::plain(kind.kind(), ChoiceKind::Material, kind.title(), about)
        })
        .collect()
}

/// The rules, for `accept` and `limit`.
pub(super) fn rules() -> Vec<Choice> {
    quillet_check::RULES
        .iter()
        .map(|rule| {
            let about = About::Rule(rule.code.to_owned());
            Choice::plain(rule.code, ChoiceKind::Rule, rule.summary(), about)
        })
        .collect()
}

/// Parts, cut and bought.
pub(super) fn parts(at: Place<'_>) -> Vec<Choice> {
    named(at, &[NameKind::Part, NameKind::Bought])
}

/// Benches.
pub(super) fn benches(at: Place<'_>) -> Vec<Choice> {
    named(at, &[NameKind::Bench])
}

/// Named threads.
pub(super) fn threads(at: Place<'_>) -> Vec<Choice> {
    let threads = at
        .cursor
        .analysis
        .design
        .threads
        .iter()
        .filter_map(|thread| {
            let name = thread.name.as_ref()?.text.to_string();
            let detail = thread.designation.text.to_string();
            let about = About::Name(name.clone());
            Some(Choice::plain(name, ChoiceKind::Thread, detail, about).ranked(0))
        });
    threads.collect()
}

/// Named quantities, and in a sum the functions.
pub(super) fn quantities(at: Place<'_>) -> Vec<Choice> {
    named(at, &[NameKind::Let])
}

/// Files of the workspace, as a `use` line here would name them.
pub(super) fn files(snapshot: &Snapshot, at: Place<'_>) -> Vec<Choice> {
    let folder = at.cursor.file.path.parent().unwrap_or(Path::new(""));
    let others = snapshot
        .files()
        .into_iter()
        .filter(|path| **path != *at.cursor.file.path);
    others
        .filter(|path| crate::disk::is_design(path))
        .map(|path| {
            let label = format!("\"{}\"", crate::uses::relative(folder, path));
            Choice::plain(label, ChoiceKind::File, "a file", About::Nothing)
        })
        .collect()
}

/// Names of these kinds that are known here; those local to a part only within it.
fn named(at: Place<'_>, kinds: &[NameKind]) -> Vec<Choice> {
    let names = &at.cursor.analysis.design.names;
    let known = names
        .definitions
        .iter()
        .filter(|definition| kinds.contains(&definition.kind) && in_scope(at, definition));
    known
        .map(|definition| {
            let name = definition.name.to_string();
            let about = About::Name(name.clone());
            Choice::plain(
                name,
                kind_of(definition.kind),
                definition.kind.word(),
                about,
            )
        })
        .collect()
}

/// Items are known everywhere, what belongs to a part or pen in its item only.
fn in_scope(at: Place<'_>, definition: &Definition) -> bool {
    let Some(owner) = &definition.owner else {
        return true;
    };
    let names = &at.cursor.analysis.design.names;
    names.definitions.iter().any(|item| {
        item.owner.is_none() && item.name == *owner && item.item.contains(at.cursor.place())
    })
}

fn kind_of(kind: NameKind) -> ChoiceKind {
    match kind {
        NameKind::Let => ChoiceKind::Quantity,
        NameKind::Material => ChoiceKind::Material,
        NameKind::Thread => ChoiceKind::Thread,
        NameKind::Blank => ChoiceKind::Blank,
        NameKind::Part | NameKind::Bought => ChoiceKind::Part,
        NameKind::Bench => ChoiceKind::Bench,
        NameKind::Pen => ChoiceKind::Pen,
        NameKind::Face => ChoiceKind::Face,
    }
}

fn face(label: String, detail: &str) -> Choice {
    Choice::plain(label, ChoiceKind::Face, detail, About::Nothing)
}
