//! Lines of a joint's block.

use super::shared::WANT;
use super::shared::{accept, limit, want};
use super::{Holds, Statement, Visit, goes_on, one, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expr::ExprParsers;
use crate::grammar::expr::face;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use chumsky::prelude::*;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::JointLine, "seat FACE on FACE", "Which two faces are meant to touch; checked, it moves nothing", "seat cap.mouth on barrel.shoulder"),
    statement(Place::JointLine, "flush", "The outsides are meant to meet without a step", "flush"),
    statement(Place::JointLine, "want MEASURE (within LOW..HIGH | <= VALUE | >= VALUE | = VALUE +- TOLERANCE)", "Something that must come out of this joint", "want turns within 0.75..2")
        .rule(WANT),
    statement(Place::JointLine, "accept RULE [at FROM..TO] because \"REASON\"", "A finding you have judged, with the reason; the sheet prints it", "accept slow-cap because \"the owner likes it\""),
    statement(Place::JointLine, "limit RULE = SUM", "Sets the threshold of a rule for this joint", "limit slow-cap = 2.5"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::SeatTail, "on", "Names the face it is to touch", "seat cap.mouth on barrel.shoulder"),
];

/// A line of a joint's block.
#[derive(Clone, Debug, PartialEq)]
pub struct JointLine {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: JointLineKind,
}

/// What a joint's line says.
#[derive(Clone, Debug, PartialEq)]
pub enum JointLineKind {
    /// `seat a.x on b.y`
    Seat {
        /// The first face.
        first: Face,
        /// The face it is to touch.
        second: Face,
    },
    /// `flush`
    Flush,
    /// `want …`
    Want(Want),
    /// `accept …`
    Accept(Accept),
    /// `limit …`
    Limit(Limit),
    /// Text that is no line.
    Bad,
}

/// A line of a joint's block.
pub(crate) fn joint_line<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, JointLineKind> + use<'s> {
    let seat = word("seat")
        .ignore_then(face())
        .then_ignore(needed_word("on"))
        .then(face())
        .map(|(first, second)| JointLineKind::Seat { first, second });
    choice((
        seat,
        word("flush").to(JointLineKind::Flush),
        want(sums).map(JointLineKind::Want),
        accept(sums).map(JointLineKind::Accept),
        limit(sums).map(JointLineKind::Limit),
    ))
    .then_ignore(line_end())
}

impl Holds for JointLine {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            JointLineKind::Seat { first, second } => {
                one(first, visit);
                one(second, visit);
            }
            JointLineKind::Want(want) => one(want, visit),
            JointLineKind::Accept(accept) => one(accept, visit),
            JointLineKind::Limit(limit) => one(limit, visit),
            JointLineKind::Flush | JointLineKind::Bad => {}
        }
    }
}
