//! Where a name comes from and where it is used, across all files that know it.

use crate::{Analysis, Cursor, Snapshot, shelves};
use quillet_model::DefinitionKind;
use quillet_syntax::Span;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A place to go to.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct NameLocation {
    /// The file.
    pub path: PathBuf,
    /// The name.
    pub name: Span,
    /// The whole item or statement.
    pub item: Span,
}

/// Where the name at the cursor is defined; on a `use`, the file it names.
pub fn definition(cursor: Cursor<'_>) -> Option<NameLocation> {
    if let Some(link) = crate::links::at(cursor) {
        let start = Span::new(link.file, 0, 0);
        return target(cursor.analysis, start, start);
    }
    let definition = cursor.defined(cursor.definition()?);
    target(cursor.analysis, definition.span, definition.item)
}

/// What the thing at the cursor is made of or cut to: the material and the threads of a part, the
/// part or pen that another is like.
pub fn type_definition(cursor: Cursor<'_>) -> Vec<NameLocation> {
    let names = &cursor.analysis.design.names;
    let Some(index) = cursor.definition() else {
        return Vec::new();
    };
    let (item, own) = (cursor.defined(index).item, cursor.defined(index).kind);
    let wanted = |kind| match kind {
        DefinitionKind::Material | DefinitionKind::Thread | DefinitionKind::Blank => true,
        DefinitionKind::Part | DefinitionKind::Bought => {
            matches!(own, DefinitionKind::Part | DefinitionKind::Bought)
        }
        DefinitionKind::Pen => matches!(own, DefinitionKind::Pen | DefinitionKind::Made),
        _ => false,
    };
    let inside = names
        .references
        .iter()
        .filter(|reference| item.contains(reference.span));
    let found: BTreeSet<quillet_model::DefinitionId> = inside
        .map(|reference| reference.definition)
        .filter(|found| *found != index && wanted(cursor.defined(*found).kind))
        .collect();
    let targets = found.into_iter().filter_map(|found| {
        let definition = cursor.defined(found);
        target(cursor.analysis, definition.span, definition.item)
    });
    targets.collect()
}

/// Everywhere the name at the cursor stands in its own file, its definition first if it is there.
pub fn highlights(cursor: Cursor<'_>) -> Vec<(Span, bool)> {
    let Some(index) = cursor.definition() else {
        return Vec::new();
    };
    let definition = cursor.defined(index).span;
    let uses = cursor
        .analysis
        .design
        .names
        .uses(index)
        .map(|span| (span, false));
    let here = |(span, _): &(Span, bool)| span.file == cursor.file.id;
    std::iter::once((definition, true))
        .chain(uses)
        .filter(here)
        .collect()
}

/// Everywhere the name at the cursor is used in any file, its definition included where wanted.
pub fn references(
    snapshot: &Snapshot,
    cursor: Cursor<'_>,
    with_definition: bool,
    called_off: &dyn Fn() -> bool,
) -> Vec<NameLocation> {
    let Some(index) = cursor.definition() else {
        return Vec::new();
    };
    let definition = cursor.defined(index).span;
    let mut found = BTreeSet::new();
    for analysis in knowing(snapshot, cursor, definition, called_off) {
        let names = &analysis.design.names;
        let Some(index) = names.definitions.position(|other| other.span == definition) else {
            continue;
        };
        let own = with_definition.then_some(definition);
        found.extend(
            names
                .uses(index)
                .chain(own)
                .filter_map(|span| target(&analysis, span, span)),
        );
    }
    found.into_iter().collect()
}

/// The name at the cursor, where it can be renamed.
pub fn renamable(cursor: Cursor<'_>) -> Option<Span> {
    let named = cursor.definition().is_some() || shelves::at(cursor).is_some();
    cursor.token().filter(|_| named).map(|token| token.span)
}

/// The replacements, by file, that give the name at the cursor another name.
///
/// # Errors
/// In a maker's words, where the new name is none or is taken.
pub fn rename(
    snapshot: &Snapshot,
    cursor: Cursor<'_>,
    new: &str,
    called_off: &dyn Fn() -> bool,
) -> Result<BTreeMap<PathBuf, BTreeSet<Span>>, String> {
    if !is_name(new) {
        return Err(format!(
            "{new:?} is no name; a name is lower-case, with hyphens, as nib-unit"
        ));
    }
    if let Some(shelf) = shelves::at(cursor) {
        let place = shelf.name.span;
        let others = cursor.analysis.design.shelves.iter();
        let mut others = others.filter(|it| it.name.span != place);
        if others.any(|it| *it.name.text == *new) {
            return Err(format!("{new} is already the name of a shelf"));
        }
        let path = cursor.analysis.path(place).map(Path::to_path_buf);
        return Ok(path
            .map(|it| (it, BTreeSet::from([place])))
            .into_iter()
            .collect());
    }
    let index = cursor
        .definition()
        .ok_or("nothing here has a name to change")?;
    let definition = cursor.defined(index).clone();
    let mut edits: BTreeMap<PathBuf, BTreeSet<Span>> = BTreeMap::new();
    for analysis in knowing(snapshot, cursor, definition.span, called_off) {
        let names = &analysis.design.names;
        let Some(index) = names
            .definitions
            .position(|other| other.span == definition.span)
        else {
            continue;
        };
        // Faces are named within their part, items within the whole design.
        let taken = names.definitions.with_ids().find(|(other, found)| {
            *other != index && *found.name == *new && found.owner == definition.owner
        });
        if let Some((_, found)) = taken {
            return Err(format!(
                "{new} is already the name of a {}",
                found.kind.word()
            ));
        }
        for span in names.uses(index).chain(Some(definition.span)) {
            if let Some(path) = analysis.path(span) {
                edits.entry(path.to_path_buf()).or_default().insert(span);
            }
        }
    }
    Ok(edits)
}

/// Where an end's or face's name stands in its own part, when the cursor is on it there: these
/// are changed together as one is typed.
pub fn linked(cursor: Cursor<'_>) -> Option<Vec<Span>> {
    let index = cursor.definition()?;
    let definition = cursor.defined(index);
    if definition.kind != DefinitionKind::Face {
        return None;
    }
    let names = &cursor.analysis.design.names;
    let owner = definition.owner.as_ref()?;
    let part = names.definitions.iter().find(|other| {
        other.owner.is_none() && other.name == *owner && other.item.contains(definition.span)
    })?;
    let spans: Vec<Span> = std::iter::once(definition.span)
        .chain(names.uses(index))
        .filter(|span| part.item.contains(*span))
        .collect();
    spans
        .iter()
        .any(|span| span.touches(cursor.offset))
        .then_some(spans)
}

/// Whether a text can be a name.
pub(crate) fn is_name(text: &str) -> bool {
    let tokens = quillet_syntax::lex(quillet_syntax::FileId::default(), text);
    let reserved = quillet_syntax::grammar::RESERVED.contains(&text);
    matches!(tokens.as_slice(), [token] if token.kind == quillet_syntax::TokenKind::Name)
        && !reserved
}

/// The analyses in which a definition can be known: that of the cursor, and those of every file
/// that uses, directly or not, the file of the definition.
fn knowing(
    snapshot: &Snapshot,
    cursor: Cursor<'_>,
    definition: Span,
    called_off: &dyn Fn() -> bool,
) -> Vec<Arc<Analysis>> {
    let mut roots: BTreeSet<PathBuf> = BTreeSet::from([cursor.file.path.clone()]);
    if let Some(home) = cursor.analysis.path(definition) {
        roots.insert(home.to_path_buf());
        roots.extend(crate::uses::users(snapshot, home));
    }
    let analyse = |root: &PathBuf| snapshot.analysis(root, called_off);
    roots.iter().filter_map(analyse).collect()
}

fn target(analysis: &Analysis, name: Span, item: Span) -> Option<NameLocation> {
    let path = analysis.path(name).map(Path::to_path_buf)?;
    Some(NameLocation { path, name, item })
}
