//! Coats.

use super::super::Resolver;
use super::super::clash::out_of_range;
use super::super::frame::Frame;
use super::super::lines::Lines;
use crate::Coat;
use quillet_geometry::Length;
use quillet_syntax::ast::LineKind;
use quillet_syntax::{Span, text};

impl<'a> Resolver<'a> {
    /// The coat that a part's lines say.
    pub(crate) fn coat(&mut self, lines: &Lines<'a>, frame: &mut Frame<'a>) -> Option<Coat> {
        lines.single.iter().find_map(|line| match &line.kind {
            LineKind::Finish { name, coat } => {
                let thickness = self.positive(coat, "a coat", frame);
                let thickness = thickness.filter(|it| self.is_a_coat(*it, coat.span))?;
                Some(Coat {
                    span: line.span,
                    name: name.clone(),
                    thickness,
                })
            }
            _ => None,
        })
    }

    fn is_a_coat(&mut self, thickness: Length, at: Span) -> bool {
        let thin = thickness <= THICKEST_COAT;
        if !thin {
            self.emit(
                out_of_range(
                    at,
                    text!(
                        "a coat of {} is no finish; {} at most is expected",
                        thickness,
                        THICKEST_COAT
                    ),
                )
                .hint("the coat is counted on the radius, in millimetres"),
            );
        }
        thin
    }
}

/// What is thicker is a part of its own.
const THICKEST_COAT: Length = Length::from_nm(1_000_000);
