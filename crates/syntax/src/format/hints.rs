//! What the tree tells the formatter that the tokens alone do not.

use crate::ast::*;
use crate::visit::{Node, walk};

/// The tree's hints, each by the byte at which it holds.
#[derive(Default)]
pub(super) struct Hints {
    /// Minus signs of one operand.
    minuses: Vec<u32>,
    /// Parentheses that group, not call.
    groups: Vec<u32>,
    /// Designations, from and to.
    forms: Vec<(u32, u32)>,
    /// Statements that stand in columns.
    statements: Vec<(u32, Columns)>,
}

/// How a statement stands in columns: where each begins, besides the first, and at which place after
/// the indent.
#[derive(Clone, Debug, Default)]
pub(super) struct Columns {
    pub(super) breaks: Vec<(Break, usize)>,
}

/// Where `dia` stands in a station, after the indent.
const DIA: usize = 16;
/// Where a station's shape does: what most diameters need after `dia`.
const SHAPE: usize = DIA + 10;
/// Where the reach of a cut does.
const REACH: usize = 24;
/// Where a joint's first end does: after the longest verb.
const FIRST_END: usize = 6;

/// Where a column begins.
#[derive(Clone, Copy, Debug)]
pub(super) enum Break {
    /// At the first token from this byte on.
    From(u32),
    /// At the token before this byte.
    Before(u32),
}

impl Hints {
    pub(super) fn of(file: &File) -> Self {
        let mut hints = Self::default();
        walk(file, &mut |node| hints.note(node));
        hints.minuses.sort_unstable();
        hints.groups.sort_unstable();
        hints.forms.sort_unstable();
        hints.statements.sort_by_key(|(start, _)| *start);
        hints
    }

    /// Whether the minus at a byte has one operand.
    pub(super) fn is_prefix(&self, start: u32) -> bool {
        self.minuses.binary_search(&start).is_ok()
    }

    /// Whether the parenthesis at a byte groups.
    pub(super) fn is_group(&self, start: u32) -> bool {
        self.groups.binary_search(&start).is_ok()
    }

    /// Whether a token of a thread's designation ends at a byte, and more of it comes.
    pub(super) fn is_in_form(&self, end: u32) -> bool {
        let after = self.forms.partition_point(|(start, _)| *start < end);
        let form = after.checked_sub(1).and_then(|at| self.forms.get(at));
        form.is_some_and(|(_, to)| end < *to)
    }

    /// The columns of the statement that begins at a byte.
    pub(super) fn columns(&self, start: u32) -> Option<&Columns> {
        let at = self
            .statements
            .binary_search_by_key(&start, |(start, _)| *start)
            .ok()?;
        Some(&self.statements[at].1)
    }

    fn note(&mut self, node: Node<'_>) {
        match node {
            Node::Expr(expr) => match expr.kind {
                ExprKind::Negate(_) => self.minuses.push(expr.span.start),
                ExprKind::Group(_) => self.groups.push(expr.span.start),
                _ => {}
            },
            Node::Form(form) => {
                let span = form.designation.span;
                self.forms.push((span.start, span.end));
            }
            Node::Station(station) => {
                if let Some(content) = &station.content {
                    let dia = content.dia.span;
                    let breaks = [
                        (Break::Before(dia.start), DIA),
                        (Break::From(dia.end), SHAPE),
                    ];
                    self.statement(station.span.start, breaks);
                }
            }
            Node::Feature(feature) => {
                let mut reach = None;
                node.each(&mut |held| {
                    if let Node::Reach(held) = held {
                        reach = Some(Break::From(held.span.start));
                    }
                });
                // A tenon's is its length alone.
                if let FeatureKind::Tenon { length, .. } = &feature.kind {
                    reach = Some(Break::Before(length.span.start));
                }
                self.statement(feature.span.start, reach.map(|it| (it, REACH)));
            }
            Node::SideLine(line) => {
                if let SideLineKind::Cut(cut) = &line.kind {
                    let stretch = Break::From(cut.stretch.span.start);
                    self.statement(line.span.start, [(stretch, REACH)]);
                }
            }
            Node::Joint(joint) => {
                let first = Break::From(joint.first.span.start);
                self.statement(joint.verb_span.start, [(first, FIRST_END)]);
            }
            _ => {}
        }
    }

    fn statement(&mut self, start: u32, breaks: impl IntoIterator<Item = (Break, usize)>) {
        let breaks = breaks.into_iter().collect();
        self.statements.push((start, Columns { breaks }));
    }
}
