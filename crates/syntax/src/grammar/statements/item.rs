//! Items: what stands in a file.

use super::{Statement, statement, word};
use crate::grammar::{Place, Word};

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Item, "use \"PATH\"", "Another file's items come in, each file once", "use \"saltings.quillet\""),
    statement(Place::Item, "let NAME = SUM", "Names a quantity or a material", "let grip = 11.4"),
    statement(Place::Item, "limit RULE = SUM", "Sets the threshold of a rule from here inward; the nearest wins", "limit thin-wall = 0.9"),
    statement(Place::Item, "material NAME [\"TITLE\"] {…}", "A material of your own; its kind gives what is not said", "material tide \"Tide resin\" { kind acrylic }")
        .block(Place::Material),
    statement(Place::Item, "thread NAME = DESIGNATION [starts COUNT]", "Names a thread, so that both parts of a joint say the same", "thread closing = M13x0.8 starts 3"),
    statement(Place::Item, "blank NAME of MATERIAL (rod DIAMETER | square SIDE) [by LENGTH] [matched]", "Stock that several parts are cut from, for the cut list", "blank stick of reed rod 18 by 150"),
    statement(Place::Item, "part NAME (from FIRST to SECOND | like PART) {…}", "A part you cut; stations run from its first end (0) to its second", "part cap from mouth to crown { length 64 }")
        .rule("part NAME (from FIRST to SECOND {…} | like PART [{…}])")
        .block(Place::Part),
    statement(Place::Item, "bought NAME [\"TITLE\"] (from FIRST to SECOND | like PART) {…}", "A part bought and measured: nib unit, converter, clip, spring, ring", "bought converter from mouth to knob { length 73 }")
        .rule("bought NAME [\"TITLE\"] ([from FIRST to SECOND] {…} | like PART [{…}])")
        .block(Place::Part),
    statement(Place::Item, "bench NAME [\"TITLE\"] {…}", "What tools and machines there are", "bench saltings { drills 1..13 step 0.1 }")
        .block(Place::Bench),
    statement(Place::Item, "pen NAME [\"TITLE\"] [like PEN] {…}", "How parts meet, and what is wanted of the whole", "pen heron \"Heron\" { close cap.mouth onto barrel.mouth }")
        .block(Place::Pen),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    word(Place::File, "dimensions", "Bare lengths in this file are inches", "dimensions in inches"),
    word(Place::File, "inches", "Bare lengths in this file are inches", "dimensions in inches"),

    word(Place::Header, "from", "Names the end at station 0", "part cap from mouth to crown { length 64 }"),
    word(Place::Header, "to", "Names the end at the far station", "part cap from mouth to crown { length 64 }"),
    word(Place::Header, "like", "The same as another, with the changes in its block", "pen heron-ida \"Heron for Ida\" like heron { let grip = 11.0 }"),

    word(Place::Form, "starts", "How many starts the thread has; the lead is pitch times starts", "thread closing = M13x0.8 starts 3"),

    word(Place::Stock, "of", "Names the material", "blank of reed rod 18"),
    word(Place::Stock, "rod", "Round stock of a diameter", "blank of reed rod 18"),
    word(Place::Stock, "square", "Square stock of a side", "blank of reed square 20"),
    word(Place::Stock, "by", "The stock's length", "blank stick of reed rod 18 by 150"),
    word(Place::Stock, "matched", "Its parts follow each other as in the pen, so that grain or pattern runs on", "blank stick of reed rod 18 by 300 matched"),
];
