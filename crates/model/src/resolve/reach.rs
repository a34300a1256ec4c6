//! Where a cut lies, inward from its end's face.

use super::Resolver;
use super::clash::out_of_range;
use super::frame::Frame;
use crate::Part;
use quillet_geometry::Length;
use quillet_syntax::ast::{self, ReachKind};
use quillet_syntax::{Edit, Span, text};

impl<'a> Resolver<'a> {
    pub(super) fn reach(
        &mut self,
        reach: &ast::Reach,
        part: &Part,
        frame: &mut Frame<'a>,
    ) -> Option<AxialRange> {
        let from = match &reach.at {
            None => Length::ZERO,
            Some(at) => self.distance(at, "a start", frame)?,
        };
        let (to, through) = match &reach.kind {
            ReachKind::For(sum) => (from + self.positive(sum, "a length", frame)?, false),
            ReachKind::To(sum) => (self.positive(sum, "a depth", frame)?, false),
            ReachKind::Through => (part.length, true),
        };
        if from < to {
            return Some(AxialRange {
                from,
                to,
                through,
                span: reach.span,
            });
        }
        let finding = out_of_range(
            reach.span,
            text!(
                "this cut starts at {} and ends at {}; it must end deeper than it starts",
                from,
                to
            ),
        )
        .hint("to says a place from the face, for says an amount");
        let amount = match &reach.kind {
            ReachKind::To(sum) => Some(sum.span),
            _ => None,
        };
        self.emit(match amount {
            Some(amount) => {
                let written = format!("for {}", self.design.text(amount));
                let to = Span::new(amount.file, reach.span.range().start, amount.range().end);
                finding.fix(format!("write {written}"), to, written)
            }
            None => finding,
        });
        None
    }

    /// A cut that reaches past the part is told of and dropped.
    pub(super) fn within(&mut self, along: AxialRange, part: &Part) -> Option<AxialRange> {
        let to = self.no_further(along.to, part);
        if to <= part.length && along.from < to {
            return Some(AxialRange { to, ..along });
        }
        self.lies_beyond(
            out_of_range(
                along.span,
                text!(
                    "this cut reaches {} into {}, which is {} long",
                    along.to,
                    part.name.text,
                    part.length
                ),
            )
            .label(part.length_span, "the length")
            .hint("write through to go right through, or a smaller depth")
            .fix_all("write through", goes_through(&along)),
            along.to,
        );
        None
    }
}

/// The reach written as `through`; where it starts stays as it is.
fn goes_through(along: &AxialRange) -> Vec<Edit> {
    vec![Edit::new(along.span, "through")]
}

/// Where a cut lies, inward from its end's face.
#[derive(Clone, Copy)]
pub(super) struct AxialRange {
    pub(super) from: Length,
    pub(super) to: Length,
    pub(super) through: bool,
    pub(super) span: Span,
}
