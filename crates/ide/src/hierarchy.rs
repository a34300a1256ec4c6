//! What an item is used by, and what it uses: pens and the parts they join, parts and the threads
//! they are cut with.

use crate::symbols::{Symbol, symbols};
use crate::{Analysis, Cursor, Snapshot};
use quillet_syntax::Span;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// An item at one end, and where it names or is named.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Relation {
    /// The file the item stands in.
    pub path: PathBuf,
    /// The item.
    pub item: Symbol,
    /// Where the using item names the used one.
    pub places: Vec<Span>,
}

/// The item whose name is at the cursor, with its file.
pub fn item(cursor: Cursor<'_>) -> Option<(PathBuf, Symbol)> {
    let definition = cursor.defined(cursor.definition()?);
    if definition.owner.is_some() {
        return None;
    }
    let file = cursor.analysis.file(definition.span.file)?;
    let all = symbols(cursor.analysis, file);
    let item = all
        .into_iter()
        .find(|symbol| symbol.name_span == definition.span)?;
    Some((file.path.clone(), item))
}

/// The items that name the item at the cursor.
pub fn used_by(
    snapshot: &Snapshot,
    cursor: Cursor<'_>,
    called_off: &dyn Fn() -> bool,
) -> Vec<Relation> {
    let found = crate::references(snapshot, cursor, false, called_off);
    let mut relations: BTreeMap<(PathBuf, Span), Relation> = BTreeMap::new();
    for place in found {
        let Some(analysis) = snapshot.analysis(&place.path, called_off) else {
            continue;
        };
        let Some(file) = analysis.design.root() else {
            continue;
        };
        let all = symbols(&analysis, file);
        if let Some(item) = all.into_iter().find(|item| item.span.contains(place.name)) {
            let key = (place.path.clone(), item.span);
            let new = || Relation {
                path: place.path.clone(),
                item,
                places: Vec::new(),
            };
            relations
                .entry(key)
                .or_insert_with(new)
                .places
                .push(place.name);
        }
    }
    relations.into_values().collect()
}

/// The items that the item at the cursor names.
pub fn uses(cursor: Cursor<'_>) -> Vec<Relation> {
    let analysis: &Analysis = cursor.analysis;
    let Some(index) = cursor.definition() else {
        return Vec::new();
    };
    let own = cursor.defined(index);
    let names = &analysis.design.names;
    let mut relations: BTreeMap<quillet_model::DefinitionId, Relation> = BTreeMap::new();
    for used in names
        .references
        .iter()
        .filter(|used| own.item.contains(used.span))
    {
        let definition = &names.definitions[used.definition];
        if definition.owner.is_some() || used.definition == index {
            continue;
        }
        if let Some(known) = relations.get_mut(&used.definition) {
            known.places.push(used.span);
            continue;
        }
        let file = analysis.file(definition.span.file);
        let item = file.and_then(|file| {
            let mut all = symbols(analysis, file).into_iter();
            Some((
                file.path.clone(),
                all.find(|it| it.name_span == definition.span)?,
            ))
        });
        if let Some((path, item)) = item {
            relations.insert(
                used.definition,
                Relation {
                    path,
                    item,
                    places: vec![used.span],
                },
            );
        }
    }
    relations.into_values().collect()
}
