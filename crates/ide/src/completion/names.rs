//! Names in scope.

mod faces;

use super::{Choice, ChoiceKind, CompletionContext, DocumentationKey};
use crate::Snapshot;
use faces::taken;
pub(super) use faces::{ends, faces, faces_of_part};
use quillet_model::{Definition, DefinitionId, DefinitionKind, Feature, Names, Part};
use quillet_standards::material;
use quillet_syntax::grammar;
use std::path::Path;

/// What a new item is like, or the quantity a pen overrides, or stock by its name.
pub(super) fn like_or_override(at: CompletionContext<'_>) -> Vec<Choice> {
    let own = at.expected.place;
    let likes = match (at.before().next(), at.verb()) {
        (Some("like"), Some("pen")) => named(at, &[DefinitionKind::Pen]),
        (Some("like"), _) => named(at, &[DefinitionKind::Part, DefinitionKind::Bought]),
        (Some("let"), _) if own == grammar::Place::Pen => return lets(at, LetMeaning::Both),
        (Some("blank"), _) if own == grammar::Place::Part => {
            return named(at, &[DefinitionKind::Blank]);
        }
        _ => return Vec::new(),
    };
    // Nothing is like itself.
    let mut others = likes;
    others.retain(|choice| Some(choice.label.as_str()) != at.named());
    others
}

/// Materials of the design, then the built-in kinds.
pub(super) fn materials(at: CompletionContext<'_>) -> Vec<Choice> {
    let mut choices = named(at, &[DefinitionKind::Material]);
    choices.extend(lets(at, LetMeaning::Materials));
    choices.extend(kinds().into_iter().map(|kind| kind.ranked(3)));
    choices
}

/// What a `let` may be besides a quantity, where nothing of it is written yet: the materials of the design.
pub(super) fn let_materials(at: CompletionContext<'_>) -> Vec<Choice> {
    if at.verb() != Some("let") || at.before().next() != Some("=") {
        return Vec::new();
    }
    let mut choices = named(at, &[DefinitionKind::Material]);
    choices.extend(lets(at, LetMeaning::Materials));
    // Nothing is told by itself.
    choices.retain(|choice| Some(choice.label.as_str()) != at.named());
    choices.into_iter().map(|it| it.ranked(1)).collect()
}

/// The built-in kinds of material.
pub(super) fn kinds() -> Vec<Choice> {
    material::all()
        .map(|kind| {
            let about = DocumentationKey::Kind(kind.kind().to_owned());
            Choice::plain(kind.kind(), ChoiceKind::Material, kind.title(), about)
        })
        .collect()
}

/// The colours of the built-in kinds, as they are written.
pub(super) fn colours() -> Vec<Choice> {
    material::all()
        .map(|kind| {
            let written = format!("\"{}\"", kind.colour());
            let what = format!("as {}", kind.kind());
            let about = DocumentationKey::Kind(kind.kind().to_owned());
            Choice::plain(written, ChoiceKind::Material, what, about)
        })
        .collect()
}

/// Parts, cut and bought: those that may stand here. What a groove takes is a ring where there
/// is one; what is filled is a part that is cut.
pub(super) fn parts(at: CompletionContext<'_>) -> Vec<Choice> {
    let design = &at.cursor.analysis.design;
    let rings: Vec<&str> = design
        .parts
        .iter()
        .filter(|part| part.ring().is_some())
        .map(|part| &*part.name.text)
        .collect();
    let taken = taken(at);
    let takes = at.before().next() == Some("takes") && !rings.is_empty();
    let mut parts = match at.verb() {
        Some("fill") => named(at, &[DefinitionKind::Part]),
        _ => named(at, &[DefinitionKind::Part, DefinitionKind::Bought]),
    };
    parts.retain(|choice| {
        let name = choice.label.as_str();
        let itself = at.before().next() == Some("like") && at.named() == Some(name);
        !itself && !taken.contains(&name) && (!takes || rings.contains(&name))
    });
    parts
}

/// Benches.
pub(super) fn benches(at: CompletionContext<'_>) -> Vec<Choice> {
    named(at, &[DefinitionKind::Bench])
}

/// Pens that are drawn.
pub(super) fn pens(at: CompletionContext<'_>) -> Vec<Choice> {
    named(at, &[DefinitionKind::Pen])
}

/// Named threads; of a joint that names its parts, first those both are cut with.
pub(super) fn threads(at: CompletionContext<'_>) -> Vec<Choice> {
    let design = &at.cursor.analysis.design;
    let joined: Vec<_> = taken(at)
        .into_iter()
        .filter_map(|part| design.part(part))
        .collect();
    let threads = design.threads.iter().filter_map(|thread| {
        let name = thread.name.as_ref()?.text.to_string();
        let detail = thread.designation.text.to_string();
        let about = DocumentationKey::Name(name.clone());
        let is_cut = |part: &&std::sync::Arc<Part>| {
            let mut cut = part.features.iter().filter_map(Feature::thread);
            cut.any(|(cut, _)| cut.span == thread.span)
        };
        let rank = u8::from(!joined.iter().all(is_cut));
        Some(Choice::plain(name, ChoiceKind::Thread, detail, about).ranked(rank))
    });
    threads.collect()
}

/// Named quantities.
pub(super) fn quantities(at: CompletionContext<'_>) -> Vec<Choice> {
    lets(at, LetMeaning::Quantities)
}

/// What a `let` may stand for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum LetMeaning {
    Quantities,
    Materials,
    Both,
}

/// The names of `let`s that stand for what is wanted, but not the one being written.
fn lets(at: CompletionContext<'_>, wanted: LetMeaning) -> Vec<Choice> {
    let names = &at.cursor.analysis.design.names;
    let mut choices = named(at, &[DefinitionKind::Let]);
    choices.retain(|choice| {
        let mut known = names.definitions.with_ids();
        let known =
            known.find(|(_, it)| it.kind == DefinitionKind::Let && *it.name == *choice.label);
        known.is_some_and(|(index, it)| {
            let itself = at.verb() == Some("let") && at.named() == Some(&*it.name);
            let reported = match stands_for_a_material(names, index, 0) {
                true => LetMeaning::Materials,
                false => LetMeaning::Quantities,
            };
            wanted == LetMeaning::Both || (wanted == reported && !itself)
        })
    });
    choices
}

/// Whether a `let` names a material, itself or through others.
fn stands_for_a_material(names: &Names, index: DefinitionId, depth: usize) -> bool {
    let item = names.definitions[index].item;
    let mut used = names
        .references
        .iter()
        .filter(|used| item.contains(used.span));
    // What goes round in a circle stands for nothing.
    depth < 8
        && used.any(|used| match names.definitions[used.definition].kind {
            DefinitionKind::Material => true,
            DefinitionKind::Let => stands_for_a_material(names, used.definition, depth + 1),
            _ => false,
        })
}

/// Files of the workspace, as a `use` line here would name them.
pub(super) fn files(snapshot: &Snapshot, at: CompletionContext<'_>) -> Vec<Choice> {
    let folder = at.cursor.file.path.parent().unwrap_or(Path::new(""));
    let others = snapshot
        .files()
        .into_iter()
        .filter(|path| **path != *at.cursor.file.path);
    others
        .filter(|path| crate::disk::is_design(path))
        .map(|path| {
            let label = format!("\"{}\"", crate::uses::relative(folder, path));
            Choice::plain(label, ChoiceKind::File, "a file", DocumentationKey::Nothing)
        })
        .collect()
}

/// Names of these kinds that are known here; those local to a part only within it.
fn named(at: CompletionContext<'_>, kinds: &[DefinitionKind]) -> Vec<Choice> {
    let names = &at.cursor.analysis.design.names;
    let known = names
        .definitions
        .iter()
        .filter(|definition| kinds.contains(&definition.kind) && in_scope(at, definition));
    known
        .map(|definition| {
            let name = definition.name.to_string();
            let about = DocumentationKey::Name(name.clone());
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
fn in_scope(at: CompletionContext<'_>, definition: &Definition) -> bool {
    let Some(owner) = &definition.owner else {
        return true;
    };
    let names = &at.cursor.analysis.design.names;
    let within = at.item().map(|item| item.span);
    names
        .definitions
        .iter()
        .any(|item| item.owner.is_none() && item.name == *owner && Some(item.item) == within)
}

fn kind_of(kind: DefinitionKind) -> ChoiceKind {
    match kind {
        DefinitionKind::Let => ChoiceKind::Quantity,
        DefinitionKind::Material => ChoiceKind::Material,
        DefinitionKind::Thread => ChoiceKind::Thread,
        DefinitionKind::Blank => ChoiceKind::Blank,
        DefinitionKind::Part | DefinitionKind::Bought => ChoiceKind::Part,
        DefinitionKind::Bench => ChoiceKind::Bench,
        DefinitionKind::Pen | DefinitionKind::Made => ChoiceKind::Pen,
        DefinitionKind::Face => ChoiceKind::Face,
    }
}
