//! Lines of a pen.

use super::shared::WANT;
use super::{Statement, statement, word};
use crate::grammar::{Place, Word};

/// A joint's rule: every verb takes every option, of which its form shows those that mean something.
macro_rules! joint {
    ($verb:literal) => {
        concat!(
            $verb,
            " FACE (into | onto) FACE (with THREAD | through PART | by LENGTH | fit FIT | clearance CLEARANCE",
            " | interference INTERFERENCE | gap GAP)* [{…}]",
        )
    };
}

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Pen, "screw FACE (into FACE | onto FACE) [with THREAD] [through PART] [{…}]", "A threaded joint", "screw section.shank into barrel.mouth")
        .rule(joint!("screw")).block(Place::JointLine),
    statement(Place::Pen, "close FACE (onto FACE | into FACE) [with THREAD] [through PART] [{…}]", "The cap's joint, the one that opens to write", "close cap.mouth onto barrel.mouth")
        .rule(joint!("close")).block(Place::JointLine),
    statement(Place::Pen, "post FACE (onto FACE | into FACE) [by LENGTH] [{…}]", "Where the cap sits while writing", "post cap.mouth onto barrel.tail by 2")
        .rule(joint!("post")).block(Place::JointLine),
    statement(Place::Pen, "slip FACE (into FACE | onto FACE) [fit FIT | clearance CLEARANCE] [through PART] [{…}]", "A plain joint that slides", "slip sleeve.front into barrel.mouth fit H7/g6")
        .rule(joint!("slip")).block(Place::JointLine),
    statement(Place::Pen, "press FACE (into FACE | onto FACE) [fit FIT | interference INTERFERENCE] [by LENGTH] [through PART] [{…}]", "A plain joint that is pressed", "press band.front onto cap.mouth fit H7/p6")
        .rule(joint!("press")).block(Place::JointLine),
    statement(Place::Pen, "glue FACE (into FACE | onto FACE) [gap GAP] [through PART] [{…}]", "A plain joint that is glued", "glue liner.front into cap.mouth gap 0.1")
        .rule(joint!("glue")).block(Place::JointLine),
    statement(Place::Pen, "push FACE (onto FACE | into FACE) by LENGTH [{…}]", "A friction connection, as a converter on a feed", "push converter.mouth onto nib-unit.heel by 5")
        .rule(joint!("push")).block(Place::JointLine),
    statement(Place::Pen, "want MEASURE (<= VALUE | >= VALUE | within LOW..HIGH | = VALUE +- TOLERANCE)", "Something that must come out", "want length(capped) <= 145")
        .rule(WANT),
    statement(Place::Pen, "accept RULE [at FROM..TO] because \"REASON\"", "A finding you have judged, with the reason; the sheet prints it", "accept slow-cap because \"the owner likes it\""),
    statement(Place::Pen, "let NAME = SUM", "Sets one of the file's quantities as this pen sees it", "let grip = 11.0"),
    statement(Place::Pen, "limit RULE = SUM", "Sets the threshold of a rule for this pen", "limit slow-cap = 2.5"),
    statement(Place::Pen, "bench NAME", "Which bench this pen is made on", "bench saltings")
        .rule("bench BENCH"),
    statement(Place::Pen, "fill PART", "The part that itself holds the ink", "fill barrel"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    word(Place::Joint, "into", "The first is the male, the second the female", "screw section.shank into barrel.mouth"),
    word(Place::Joint, "onto", "The first is the female, the second the male", "close cap.mouth onto barrel.mouth"),

    word(Place::JointTail, "with", "Which thread, where the parts share several", "screw nib-unit.heel into section.tip with housing"),
    word(Place::JointTail, "through", "What is trapped between", "screw finial.shank into cap.crown through clip"),
    word(Place::JointTail, "by", "How far one goes into the other", "push converter.mouth onto nib-unit.heel by 5"),
    word(Place::JointTail, "fit", "The ISO 286 fit the joint asks for", "slip sleeve.front into barrel.mouth fit H7/g6"),
    word(Place::JointTail, "clearance", "The room the joint asks for, on diameter", "slip sleeve.front into barrel.mouth clearance 0.05"),
    word(Place::JointTail, "interference", "The tightness the joint asks for, on diameter", "press band.front onto cap.mouth interference 0.02"),
    word(Place::JointTail, "gap", "Room for glue, on diameter", "glue liner.front into cap.mouth gap 0.1"),
];
