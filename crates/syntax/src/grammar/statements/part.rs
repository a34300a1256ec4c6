//! Lines of a part.

use super::shared::WANT;
use super::{Statement, statement, word};
use crate::grammar::{Place, Word};

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Part, "let NAME = SUM", "Names a quantity or a material within this part", "let wall = 1.2"),
    statement(Place::Part, "limit RULE = SUM", "Sets the threshold of a rule within this part", "limit thin-wall = 0.9"),
    statement(Place::Part, "want MEASURE (>= VALUE | <= VALUE | within LOW..HIGH | = VALUE +- TOLERANCE)", "Something that must come out", "want wall(cap) >= 1")
        .rule(WANT),
    statement(Place::Part, "accept RULE [at FROM..TO] because \"REASON\"", "A finding you have judged, with the reason; the sheet prints it", "accept thin-wall because \"a metal lining follows\""),
    statement(Place::Part, "bench NAME", "Which bench this part is made on", "bench saltings")
        .rule("bench BENCH"),
    statement(Place::Part, "blank (of MATERIAL rod DIAMETER | of MATERIAL square SIDE | NAME) [by LENGTH] [to STATION] [spigot DIAMETER for LENGTH [gap GAP]]", "What the part is cut from; several are one glued stack", "blank of reed rod 18")
        .rule("blank (NAME | of MATERIAL (rod DIAMETER | square SIDE) [by LENGTH] [to STATION] [spigot DIAMETER for LENGTH [gap GAP]])"),
    statement(Place::Part, "length LENGTH", "The part's length, or the range of one that gives, as a spring", "length 64"),
    statement(Place::Part, "outside ({…} | dia DIAMETER)", "The finished outside: one diameter, or stations", "outside dia 12")
        .block(Place::Station),
    statement(Place::Part, "from END {…}", "What is cut from this end; distances run inward from its face", "from mouth { drill 8 to 67 }")
        .block(Place::Cut),
    statement(Place::Part, "mass GRAMS [at STATION]", "Grams, dry, and where the balance lies", "mass 3.1 at 24"),
    statement(Place::Part, "holds MILLILITRES", "Millilitres of ink", "holds 0.8"),
    statement(Place::Part, "ring INSIDE by CORD", "An O-ring: inside diameter by cord", "ring 7.6 by 1.5"),
    statement(Place::Part, "arm LENGTH", "An arm of this length that is drawn and weighed and never in the way", "arm 40"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    word(Place::PartTail, "to", "The station at which this piece of the stack ends", "blank of reed rod 16 to 44"),
    word(Place::PartTail, "spigot", "A spigot that locates this piece in the one before", "blank of chalk rod 16 spigot 11 for 14 gap 0.1"),
    word(Place::PartTail, "for", "How long the spigot is", "blank of chalk rod 16 spigot 11 for 14"),
    word(Place::PartTail, "gap", "Room for glue, on diameter", "blank of chalk rod 16 spigot 11 for 14 gap 0.1"),
    word(Place::PartTail, "at", "Where the balance lies, from the first end", "mass 3.1 at 24"),
    word(Place::PartTail, "by", "The cord's diameter", "ring 7.6 by 1.5"),
];
