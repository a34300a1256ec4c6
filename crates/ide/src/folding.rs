//! What can be folded away.

use crate::statement::{Statement, statements};
use quillet_syntax::Span;
use quillet_syntax::ast::{File, ItemKind};

/// A stretch of the text that can be folded to its first line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fold {
    /// From the first line that stays to the last line that goes.
    pub span: Span,
    /// What it is.
    pub kind: FoldKind,
}

/// What can be folded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoldKind {
    /// A block.
    Block,
    /// The comment lines above an item.
    Note,
    /// Several `use` lines.
    Uses,
}

/// Everything in a file that can be folded, in order.
pub fn folds(file: &File) -> Vec<Fold> {
    let mut folds = Vec::new();
    for statement in statements(file) {
        add(&statement, &mut folds);
    }
    let uses: Vec<Span> = file
        .items
        .iter()
        .filter(|item| matches!(item.kind, ItemKind::Use(_)))
        .map(|item| item.span)
        .collect();
    if let [first, .., last] = uses.as_slice() {
        folds.push(Fold {
            span: first.to(*last),
            kind: FoldKind::Uses,
        });
    }
    folds.sort_by_key(|fold| (fold.span.start, std::cmp::Reverse(fold.span.end)));
    folds
}

fn add(statement: &Statement, folds: &mut Vec<Fold>) {
    if let Some(span) = statement.note {
        folds.push(Fold {
            span,
            kind: FoldKind::Note,
        });
    }
    if statement.block {
        folds.push(Fold {
            span: statement.span,
            kind: FoldKind::Block,
        });
    }
    for inner in &statement.inner {
        add(inner, folds);
    }
}
