//! What names mean where they are written: for finding unused items and for the editor.

use crate::{ById, DefinitionId};
use quillet_syntax::Span;
use std::sync::Arc;

/// What a name names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum DefinitionKind {
    Let,
    Material,
    Thread,
    Blank,
    Part,
    Bought,
    Bench,
    Pen,
    Made,
    /// An end of a part, or a face named by `as`.
    Face,
}

impl DefinitionKind {
    /// What a maker calls it.
    pub fn word(self) -> &'static str {
        match self {
            DefinitionKind::Let => "named quantity",
            DefinitionKind::Material => "material",
            DefinitionKind::Thread => "thread",
            DefinitionKind::Blank => "blank",
            DefinitionKind::Part => "part",
            DefinitionKind::Bought => "bought part",
            DefinitionKind::Bench => "bench",
            DefinitionKind::Pen => "pen",
            DefinitionKind::Made => "made pen",
            DefinitionKind::Face => "face",
        }
    }
}

/// Where a name is defined.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Definition {
    /// What it names.
    pub kind: DefinitionKind,
    /// The name.
    pub name: Arc<str>,
    /// Where the name stands in its definition.
    pub span: Span,
    /// The whole item or statement that defines it.
    pub item: Span,
    /// The part (or pen) it belongs to, for faces and local `let`s.
    pub owner: Option<Arc<str>>,
}

/// Where a name is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Reference {
    /// The name where it is used.
    pub span: Span,
    /// What it refers to.
    pub definition: DefinitionId,
}

/// All definitions and references of a design.
#[derive(Clone, Debug, Default)]
pub struct Names {
    /// Definitions in the order of the files.
    pub definitions: ById<DefinitionId, Definition>,
    /// References, each once, in the order of their spans.
    pub references: Vec<Reference>,
}

impl Names {
    /// What stands at a place: a definition's own name or a reference to it.
    pub fn at(&self, place: Span) -> Option<DefinitionId> {
        let here = |span: Span| span.contains(place);
        self.references
            .iter()
            .find(|reference| here(reference.span))
            .map(|reference| reference.definition)
            .or_else(|| {
                self.definitions
                    .position(|definition| here(definition.span))
            })
    }

    /// Everywhere a definition is used.
    pub fn uses(&self, definition: DefinitionId) -> impl Iterator<Item = Span> + '_ {
        let of = move |reference: &&Reference| reference.definition == definition;
        self.references
            .iter()
            .filter(of)
            .map(|reference| reference.span)
    }
}
