//! What was made of a pen, as the caliper read it.

use super::shared::{accept, open};
use super::{Holds, NameKind, Statement, Visit, all, goes_on, one, refers, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use chumsky::prelude::*;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Made, "part NAME {…}", "What of a part is made, with what the caliper read", "part cap { from mouth { drill 12.25 to 53.7 } }")
        .rule("part PART {…}").block(Place::Part),
    statement(Place::Made, "measured MEASURE VALUE", "A figure of the whole, as it was measured or weighed", "measured mass(uncapped) 15.6"),
    statement(Place::Made, "accept RULE [at FROM..TO] because \"REASON\"", "A finding in what was made that you have judged, with the reason", "accept off-drawing because \"the cap was drilled to suit\""),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::MadeTail, "on", "The day, as you write it", "made ida-1 on \"3 May\" of heron { measured mass(uncapped) 15.6 }"),
    goes_on(Place::MadeTail, "of", "The pen that it is one of", "made ida-1 of heron { measured mass(uncapped) 15.6 }"),
];

/// `made name [on "date"] of pen { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Made {
    /// The name it defines.
    pub name: Name,
    /// The day, as written.
    pub on: Option<Text>,
    /// The pen it is one of.
    pub of: Name,
    /// The block, braces included.
    pub block: Option<Span>,
    /// The lines of the block.
    pub lines: Vec<MadeLine>,
}

/// A line of what was made, with its span.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeLine {
    /// Where it stands.
    pub span: Span,
    /// What it says.
    pub kind: MadeLineKind,
}

/// What a line of what was made says.
#[derive(Clone, Debug, PartialEq)]
pub enum MadeLineKind {
    /// `part NAME { … }`
    Part(MadePart),
    /// `measured measure sum`
    Measured {
        /// What was measured.
        measure: Expr,
        /// What came of it.
        value: Expr,
    },
    /// `accept …`
    Accept(Accept),
    /// Text that is no such line.
    Bad,
}

/// `part name { … }`: the statements that are made, as they were measured.
#[derive(Clone, Debug, PartialEq)]
pub struct MadePart {
    /// The part.
    pub name: Name,
    /// The block, braces included.
    pub block: Option<Span>,
    /// The lines of the block.
    pub lines: Vec<Line>,
}

/// `made name [on "date"] of pen`, without what its block holds.
pub(crate) fn made<'s>() -> impl TokenParser<'s, Made> {
    let on = word("on").ignore_then(needed_string(Thing::Date)).or_not();
    word("made")
        .ignore_then(needed_name(Thing::Name))
        .then(on)
        .then_ignore(needed_word("of"))
        .then(needed_name(Thing::Pen))
        .then_ignore(open())
        .map(|((name, on), of)| Made {
            name,
            on,
            of,
            block: None,
            lines: Vec::new(),
        })
}

/// A line of what was made, without what its block holds.
pub(crate) fn made_line<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, MadeLineKind> + use<'s> {
    use MadeLineKind as Kind;
    let part = word("part")
        .ignore_then(needed_name(Thing::Part))
        .then_ignore(open())
        .map(|name| {
            Kind::Part(MadePart {
                name,
                block: None,
                lines: Vec::new(),
            })
        });
    let measured = word("measured")
        .ignore_then(sums.measured())
        .then(sums.needed(Thing::Quantity))
        .map(|(measure, value)| Kind::Measured { measure, value });
    choice((part, measured, accept(sums).map(Kind::Accept))).then_ignore(line_end())
}

impl Holds for MadeLine {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            MadeLineKind::Part(part) => {
                refers(NameKind::Part, &part.name, visit);
                all(&part.lines, visit);
            }
            MadeLineKind::Measured { measure, value } => {
                one(measure, visit);
                one(value, visit);
            }
            MadeLineKind::Accept(accept) => one(accept, visit),
            MadeLineKind::Bad => {}
        }
    }
}
