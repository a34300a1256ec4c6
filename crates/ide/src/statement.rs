//! The statements of a file as a tree of spans: what lies in what.

use quillet_syntax::Span;
use quillet_syntax::ast::{
    File, Item, ItemKind, Joint, Line, LineKind, MadeLine, MadeLineKind, PenLineKind,
};

/// A statement with those in its block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Statement {
    /// From its first token to its last, a block's closing brace included.
    pub(crate) span: Span,
    /// The comment lines above it, where it is an item with a note.
    pub(crate) note: Option<Span>,
    /// Whether it has a block, also an empty one.
    pub(crate) block: bool,
    /// The statements in its block.
    pub(crate) inner: Vec<Statement>,
}

impl Statement {
    fn line(span: Span) -> Self {
        Self {
            span,
            note: None,
            block: false,
            inner: Vec::new(),
        }
    }

    fn with_block(span: Span, inner: Vec<Statement>) -> Self {
        Self {
            block: true,
            inner,
            ..Self::line(span)
        }
    }
}

/// The items of a file, each with the statements in it.
pub(crate) fn statements(file: &File) -> Vec<Statement> {
    file.items.iter().map(item).collect()
}

fn item(item: &Item) -> Statement {
    let note = item.note.as_ref().map(|note| note.span);
    let lines = |spans: Vec<Statement>| Statement {
        note,
        ..Statement::with_block(item.span, spans)
    };
    match &item.kind {
        ItemKind::Use(_)
        | ItemKind::Let(_)
        | ItemKind::Limit(_)
        | ItemKind::Thread(_)
        | ItemKind::Blank(_)
        | ItemKind::Bad => Statement {
            note,
            ..Statement::line(item.span)
        },
        ItemKind::Material(material) => {
            let inner = material.lines.iter();
            lines(inner.map(|line| Statement::line(line.span)).collect())
        }
        ItemKind::Part(part) | ItemKind::Bought(part) => {
            let inner = part.lines.iter().map(part_line).collect();
            Statement {
                block: part.block.is_some(),
                ..lines(inner)
            }
        }
        ItemKind::Bench(bench) => {
            let inner = bench.tools.iter().map(|tool| Statement::line(tool.span));
            Statement {
                block: bench.block.is_some(),
                ..lines(inner.collect())
            }
        }
        ItemKind::Shelf(shelf) => {
            let inner = shelf.lines.iter().map(|line| Statement::line(line.span));
            Statement {
                block: shelf.block.is_some(),
                ..lines(inner.collect())
            }
        }
        ItemKind::Made(made) => {
            let inner = made.lines.iter().map(made_line);
            Statement {
                block: made.block.is_some(),
                ..lines(inner.collect())
            }
        }
        ItemKind::Pen(pen) => {
            let inner = pen.lines.iter().map(|line| match &line.kind {
                PenLineKind::Joint(found) => joint(line.span, found),
                _ => Statement::line(line.span),
            });
            Statement {
                block: pen.block.is_some(),
                ..lines(inner.collect())
            }
        }
    }
}

fn made_line(line: &MadeLine) -> Statement {
    let MadeLineKind::Part(part) = &line.kind else {
        return Statement::line(line.span);
    };
    let inner = part.lines.iter().map(part_line).collect();
    Statement {
        block: part.block.is_some(),
        ..Statement::with_block(line.span, inner)
    }
}

fn part_line(line: &Line) -> Statement {
    match &line.kind {
        LineKind::Outside(stations) => {
            let inner = stations.iter().map(|station| Statement::line(station.span));
            Statement::with_block(line.span, inner.collect())
        }
        LineKind::From { features, .. } => {
            let inner = features.iter().map(|feature| Statement::line(feature.span));
            Statement::with_block(line.span, inner.collect())
        }
        LineKind::Side(cuts) => {
            let inner = cuts.iter().map(|cut| Statement::line(cut.span));
            Statement::with_block(line.span, inner.collect())
        }
        _ => Statement::line(line.span),
    }
}

fn joint(span: Span, joint: &Joint) -> Statement {
    let inner = joint
        .lines
        .iter()
        .map(|line| Statement::line(line.span))
        .collect();
    Statement {
        block: joint.block.is_some(),
        ..Statement::with_block(span, inner)
    }
}
