//! What every name at file level stands for.

use super::redefinition::Redefinition;
use crate::{Definition, DefinitionKind, Names, SourceFile, Units};
use quillet_syntax::ast::{self, ItemKind};
use quillet_syntax::{FileId, Finding, RuleId, Severity, Span};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The items of all files by name; one flat space of names.
pub(super) struct Scope<'a> {
    /// Every item with its file's order kept.
    pub(super) items: Vec<&'a ast::Item>,
    entries: BTreeMap<Arc<str>, Entry<'a>>,
    inches: BTreeSet<FileId>,
    /// Items whose name another bears already.
    pub(super) again: Vec<Redefinition>,
}

/// One named item.
#[derive(Clone, Copy)]
pub(super) struct Entry<'a> {
    /// The item.
    pub(super) item: &'a ast::Item,
    /// Its definition's index in [`Names`].
    pub(super) definition: crate::DefinitionId,
}

impl<'a> Scope<'a> {
    /// Collects the items of all files; a second definition of a name is a finding, made where it is told.
    pub(super) fn collect(
        files: &'a [Arc<SourceFile>],
        names: &mut Names,
        told: &mut dyn FnMut(Span, &dyn Fn() -> Finding),
    ) -> Self {
        let mut scope = Scope {
            items: Vec::new(),
            entries: BTreeMap::new(),
            inches: BTreeSet::new(),
            again: Vec::new(),
        };
        for file in files {
            if file.parsed.tree.inches.is_some() {
                scope.inches.insert(file.id);
            }
            scope.items.extend(&file.parsed.tree.items);
        }
        names.definitions.reserve(scope.items.len());
        // Files that are used come first, so that a name given twice is told of in the file
        // that uses them.
        for item in files.iter().rev().flat_map(|file| &file.parsed.tree.items) {
            if let Some((name, kind)) = named(item) {
                scope.define(item, name, kind, names, told);
            }
        }
        scope
    }

    fn define(
        &mut self,
        item: &'a ast::Item,
        name: &ast::Name,
        kind: DefinitionKind,
        names: &mut Names,
        told: &mut dyn FnMut(Span, &dyn Fn() -> Finding),
    ) {
        let definition = names.define(kind, name, item.span, None);
        if let Some(first) = self.entries.get(&name.text) {
            let at = names.definitions[first.definition].span;
            self.again.push(Redefinition {
                at: name.span,
                kind,
            });
            let was = names.definitions[first.definition].kind;
            told(name.span, &|| duplicate(name, kind, at, was));
            return;
        }
        self.entries
            .insert(name.text.clone(), Entry { item, definition });
    }

    /// The item a name stands for.
    pub(super) fn get(&self, name: &str) -> Option<Entry<'a>> {
        self.entries.get(name).copied()
    }

    /// Whether the item is the one its name stands for, not a second definition.
    pub(super) fn is_first(&self, item: &ast::Item, name: &ast::Name) -> bool {
        self.entries
            .get(&name.text)
            .is_some_and(|entry| std::ptr::eq(entry.item, item))
    }

    /// What bare lengths at a place count in.
    pub(super) fn units(&self, place: Span) -> Units {
        match self.inches.contains(&place.file) {
            true => Units::Inches,
            false => Units::Millimetres,
        }
    }

    /// Names that stand for items of the wanted kinds.
    pub(super) fn names_of(
        &self,
        wanted: &[DefinitionKind],
    ) -> impl Iterator<Item = &str> + use<'_, 'a> {
        let wanted = wanted.to_vec();
        self.entries.iter().filter_map(move |(name, entry)| {
            let kind = named(entry.item).map(|(_, kind)| kind)?;
            wanted.contains(&kind).then_some(&**name)
        })
    }
}

/// A finding for a name defined twice.
pub(super) fn duplicate(
    name: &ast::Name,
    kind: DefinitionKind,
    first: Span,
    was: DefinitionKind,
) -> Finding {
    Finding::new(
        RuleId::DUPLICATE_NAME,
        Severity::Error,
        name.span,
        format!(
            "{} is already the name of a {}; a name is given once",
            name.text,
            was.word()
        ),
    )
    .label(first, "first given here")
    .hint(format!("give this {} another name", kind.word()))
}

/// An item's name and kind, where it defines one.
pub(super) fn named(item: &ast::Item) -> Option<(&ast::Name, DefinitionKind)> {
    Some(match &item.kind {
        ItemKind::Let(it) => (&it.name, DefinitionKind::Let),
        ItemKind::Material(it) => (&it.name, DefinitionKind::Material),
        ItemKind::Thread(it) => (&it.name, DefinitionKind::Thread),
        ItemKind::Blank(it) => (&it.name, DefinitionKind::Blank),
        ItemKind::Part(it) => (&it.name, DefinitionKind::Part),
        ItemKind::Bought(it) => (&it.name, DefinitionKind::Bought),
        ItemKind::Bench(it) => (&it.name, DefinitionKind::Bench),
        ItemKind::Pen(it) => (&it.name, DefinitionKind::Pen),
        ItemKind::Made(it) => (&it.name, DefinitionKind::Made),
        // No name of the language stands for a shelf, so it may be called as its bench is.
        ItemKind::Use(_) | ItemKind::Limit(_) | ItemKind::Shelf(_) | ItemKind::Bad => return None,
    })
}

impl Names {
    /// Adds a definition and gives its number.
    pub(super) fn define(
        &mut self,
        kind: DefinitionKind,
        name: &ast::Name,
        item: Span,
        owner: Option<Arc<str>>,
    ) -> crate::DefinitionId {
        self.definitions.push(Definition {
            kind,
            name: name.text.clone(),
            span: name.span,
            item,
            owner,
        })
    }
}
