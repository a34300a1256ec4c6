//! Lines of a joint's block.

use super::shared::WANT;
use super::{Statement, statement, word};
use crate::grammar::{Place, Word};

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
    word(Place::SeatTail, "on", "Names the face it is to touch", "seat cap.mouth on barrel.shoulder"),
];
