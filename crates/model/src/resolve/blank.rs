//! The blank of a part: one piece, or a glued stack.

use super::Resolver;
use super::frame::Frame;
use super::lines::Lines;
use crate::{BlankPiece, DefinitionKind, Spigot};
use quillet_geometry::Length;
use quillet_syntax::ast::{self, LineKind};
use quillet_syntax::{Finding, Severity, text};

impl<'a> Resolver<'a> {
    /// The pieces of a part of this length, from the first end; those that could not be read are
    /// left out and told of.
    pub(super) fn blank_pieces(
        &mut self,
        lines: &Lines<'a>,
        length: Length,
        frame: &mut Frame<'a>,
    ) -> Vec<BlankPiece> {
        let mut pieces = Vec::new();
        let mut from = Length::ZERO;
        for (index, line) in lines.blanks.iter().enumerate() {
            let last = index + 1 == lines.blanks.len();
            let (stock, named, to, spigot) = match &line.kind {
                LineKind::BlankNamed(name) => {
                    if !self.refer_to(name, &[DefinitionKind::Blank], frame) {
                        continue;
                    }
                    let Some(blank) = self.known.blanks.get(&name.text).cloned() else {
                        continue;
                    };
                    (Some(blank.stock.clone()), Some(blank), None, None)
                }
                LineKind::Blank(piece) => {
                    let stock = self.stock(&piece.stock, frame);
                    let to = piece
                        .to
                        .as_ref()
                        .and_then(|to| self.distance(to, "a place", frame));
                    let spigot = piece
                        .spigot
                        .as_ref()
                        .and_then(|spigot| self.spigot(spigot, frame));
                    (stock, None, to, spigot)
                }
                _ => continue,
            };
            let Some(stock) = stock else { continue };
            let to = to.unwrap_or(length).min(length);
            if to <= from || (to == length && !last) {
                self.emit(
                    Finding::new(
                        "out-of-range",
                        Severity::Error,
                        line.span,
                        text!(
                            "this piece of the blank runs from {} to {} of a part {} long",
                            from,
                            to,
                            length
                        ),
                    )
                    .hint("say in each piece but the last where it ends, with to"),
                );
                continue;
            }
            pieces.push(BlankPiece {
                span: line.span,
                stock,
                named,
                from,
                to,
                spigot,
            });
            from = to;
        }
        pieces
    }

    fn spigot(&mut self, spigot: &ast::Spigot, frame: &mut Frame<'a>) -> Option<Spigot> {
        let dia = self.positive(&spigot.dia, "a spigot", frame);
        let length = self.positive(&spigot.length, "a spigot", frame);
        let gap = spigot
            .gap
            .as_ref()
            .and_then(|gap| self.distance(gap, "a gap", frame));
        Some(Spigot {
            span: spigot.span,
            dia: dia?,
            length: length?,
            gap: gap.unwrap_or_default(),
            gap_span: spigot.gap.as_ref().map(|gap| gap.span),
        })
    }
}
