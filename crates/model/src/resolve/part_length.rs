//! How long a part is: one length, or the least and the free one of what gives.

use super::Resolver;
use super::clash::out_of_range;
use super::frame::Frame;
use super::lines::{Lines, incomplete};
use super::part::LONGEST;
use crate::Part;
use quillet_geometry::Length;
use quillet_syntax::ast::{self, Expr, ExprKind, LineKind, Operator};
use quillet_syntax::{Finding, text};

impl<'a> Resolver<'a> {
    /// The part's length; false where it cannot be known.
    pub(super) fn part_length(
        &mut self,
        lines: &Lines<'a>,
        part: &mut Part,
        frame: &mut Frame<'a>,
    ) -> bool {
        let length = lines.single.iter().find_map(|line| match &line.kind {
            LineKind::Length(span) => Some(span),
            _ => None,
        });
        match (length, part.ring()) {
            (Some(span), _) => {
                part.length_span = span.span;
                let lengths = self.lengths(span, frame);
                let lengths = lengths.filter(|it| self.is_a_pens(it.1, LONGEST, span.span));
                (part.length, part.length_free) = lengths.unwrap_or_default();
                lengths.is_some()
            }
            (None, Some(ring)) => {
                let cord = ring.cord;
                (part.length, part.length_free) = (cord, cord);
                true
            }
            // What cannot be read may be the line.
            (None, None) if !part.whole => false,
            (None, None) => {
                self.emit(incomplete(
                    part.name.span,
                    format!("{} says no length", part.name.text),
                    "add a line such as: length 60",
                ));
                false
            }
        }
    }

    /// The least and the free length that a part's line says, of most parts the same.
    fn lengths(
        &mut self,
        written: &ast::SumSpan,
        frame: &mut Frame<'a>,
    ) -> Option<(Length, Length)> {
        let Some(to) = &written.to else {
            return match self.as_range(&written.from, frame) {
                Some(finding) => {
                    self.emit(finding);
                    None
                }
                None => {
                    let length = self.positive(&written.from, "a length", frame)?;
                    Some((length, length))
                }
            };
        };
        self.range(&written.from, to, frame)?;
        let least = self.positive(&written.from, "a length", frame)?;
        Some((least, self.positive(to, "a length", frame)?))
    }

    /// `4-12` where a length is asked for: less than nothing, and no doubt a range.
    fn as_range(&mut self, written: &Expr, frame: &mut Frame<'a>) -> Option<Finding> {
        let ExprKind::Binary(from, Operator::Subtract, to) = &written.kind else {
            return None;
        };
        let bare = |it: &Expr| matches!(it.kind, ExprKind::Quantity { .. });
        let length = self
            .length(written, frame)
            .filter(|it| it.is_negative() && bare(from) && bare(to))?;
        let range = format!(
            "{}..{}",
            self.design.text(from.span),
            self.design.text(to.span)
        );
        let message = text!(
            "{} less {} is {}; what gives has its least length, two points and its free one",
            self.design.text(from.span),
            self.design.text(to.span),
            length
        );
        let title = format!("write {range}");
        let finding = out_of_range(written.span, message).hint(title.clone());
        Some(finding.fix(title, written.span, range))
    }
}
