//! Lines of a part.

use super::phrase::stock;
use super::shared::WANT;
use super::shared::{accept, bench_named, let_, limit, open, want};
use super::{Holds, NameKind, Statement, Visit, all, goes_on, one, refers, some, statement};
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
    statement(Place::Part, "let NAME = SUM", "Names a quantity or a material within this part", "let wall = 1.2"),
    statement(Place::Part, "limit RULE = SUM", "Sets the threshold of a rule within this part", "limit thin-wall = 0.9"),
    statement(Place::Part, "want MEASURE (>= VALUE | <= VALUE | within LOW..HIGH | = VALUE +- TOLERANCE)", "Something that must come out", "want wall(cap) >= 1")
        .rule(WANT),
    statement(Place::Part, "accept RULE [at FROM..TO] because \"REASON\"", "A finding you have judged, with the reason; the sheet prints it", "accept thin-wall because \"a metal lining follows\""),
    statement(Place::Part, "bench NAME", "Which bench this part is made on", "bench saltings")
        .rule("bench BENCH"),
    statement(Place::Part, "blank (of MATERIAL rod DIAMETER | of MATERIAL square SIDE | of MATERIAL tube DIAMETER wall THICKNESS | NAME) [by LENGTH] [to STATION] [spigot DIAMETER for LENGTH [gap GAP]]", "What the part is cut from; several are one glued stack", "blank of reed rod 18")
        .rule("blank (NAME | of MATERIAL (rod DIAMETER | square SIDE | tube DIAMETER wall THICKNESS) [by LENGTH] [to STATION] [spigot DIAMETER for LENGTH [gap GAP]])"),
    statement(Place::Part, "length LENGTH", "The part's length, or the range of one that gives, as a spring", "length 64"),
    statement(Place::Part, "outside ({…} | dia DIAMETER)", "The finished outside: one diameter, or stations", "outside dia 12")
        .block(Place::Station),
    statement(Place::Part, "from END {…}", "What is cut from this end; distances run inward from its face", "from mouth { drill 8 to 67 }")
        .block(Place::Cut),
    statement(Place::Part, "side {…}", "What is cut from the side: flats, holes, slots, patterns", "side { drill 1 at 46 }")
        .block(Place::Side),
    statement(Place::Part, "finish \"FINISH\" coat THICKNESS", "A coat on what is turned; the sizes written are the finished ones, and joints are masked", "finish \"lacquer\" coat 0.05"),
    statement(Place::Part, "mass GRAMS [at STATION]", "Grams, dry, and where the balance lies", "mass 3.1 at 24"),
    statement(Place::Part, "holds MILLILITRES", "Millilitres of ink", "holds 0.8"),
    statement(Place::Part, "ring INSIDE by CORD", "An O-ring: inside diameter by cord", "ring 7.6 by 1.5"),
    statement(Place::Part, "arm LENGTH", "An arm of this length that is drawn and weighed and never in the way", "arm 40"),
    statement(Place::Part, "throw LENGTH from END", "A mechanism's travel: in the retracted state what goes into this end stands so much further in", "throw 5 from nose"),
    statement(Place::Part, "pulls FORCE", "A magnet's pull on its like in contact, in newtons", "pulls 9"),
    statement(Place::Part, "grips LOW..HIGH", "The diameters it holds by itself, as spring fingers do", "grips 8.3..8.5"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::PartTail, "to", "The station at which this piece of the stack ends", "blank of reed rod 16 to 44"),
    goes_on(Place::PartTail, "spigot", "A spigot that locates this piece in the one before", "blank of chalk rod 16 spigot 11 for 14 gap 0.1"),
    goes_on(Place::PartTail, "for", "How long the spigot is", "blank of chalk rod 16 spigot 11 for 14"),
    goes_on(Place::PartTail, "gap", "Room for glue, on diameter", "blank of chalk rod 16 spigot 11 for 14 gap 0.1"),
    goes_on(Place::PartTail, "at", "Where the balance lies, from the first end", "mass 3.1 at 24"),
    goes_on(Place::PartTail, "by", "The cord's diameter", "ring 7.6 by 1.5"),
    goes_on(Place::PartTail, "coat", "How thick the coat is, on the radius", "finish \"lacquer\" coat 0.05"),
    goes_on(Place::PartTail, "from", "The end into which the thing that is thrown goes", "throw 5 from nose"),
];

/// `part name from a to b { … }`, `bought …`, or `… like other { … }`.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The name it defines.
    pub name: Name,
    /// A bought part's title.
    pub title: Option<Text>,
    /// The names of its ends, the first at station 0.
    pub ends: Option<[Name; 2]>,
    /// The part it is like.
    pub like: Option<Name>,
    /// The block, braces included; `None` where there is none (`like` without changes).
    pub block: Option<Span>,
    /// The lines of the block.
    pub lines: Vec<Line>,
}

/// A line of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: LineKind,
}

/// What a part's line says.
#[derive(Clone, Debug, PartialEq)]
pub enum LineKind {
    /// `let name = sum`, local to the part.
    Let(Let),
    /// `limit rule = sum`
    Limit(Limit),
    /// `want …`
    Want(super::Want),
    /// `accept …`
    Accept(Accept),
    /// `bench NAME`
    Bench(Name),
    /// `blank NAME`
    BlankNamed(Name),
    /// `blank of … [to L] [spigot D for L [gap G]]`
    Blank(Box<BlankPiece>),
    /// `length L` or `length a..b`
    Length(SumSpan),
    /// `outside dia D`
    OutsideDia(Expr),
    /// `outside { … }`
    Outside(Vec<Station>),
    /// `from END { … }`
    From {
        /// The end the cuts are made from.
        end: Name,
        /// The cuts.
        features: Vec<Feature>,
    },
    /// `side { … }`
    Side(Vec<SideLine>),
    /// `finish "…" coat T`
    Finish {
        /// What it is.
        name: Text,
        /// How thick, on the radius.
        coat: Expr,
    },
    /// `mass G [at Z]`
    Mass {
        /// Grams, dry.
        mass: Expr,
        /// Where its centre of mass lies, from the first end.
        at: Option<Expr>,
    },
    /// `holds ML`
    Holds(Expr),
    /// `ring SECTION-INSIDE by SECTION`: inside diameter by cord diameter.
    Ring {
        /// Inside diameter.
        inside: Expr,
        /// Cord diameter.
        cord: Expr,
    },
    /// `arm L`: drawn and weighed, never in the way.
    Arm(Expr),
    /// `throw S from END`
    Throw {
        /// How far.
        travel: Expr,
        /// The end into which what is thrown goes.
        from: Name,
    },
    /// `pulls F`: newtons, on its like in contact.
    Pulls(Expr),
    /// `grips a..b`: diameters that it holds.
    Grips(Range),
    /// Text that is no line.
    Bad,
}

/// One piece of a blank, alone or in a glued stack.
#[derive(Clone, Debug, PartialEq)]
pub struct BlankPiece {
    /// The stock.
    pub stock: Stock,
    /// `to L`: where this piece ends, a station.
    pub to: Option<Expr>,
    /// `spigot D for L [gap G]`
    pub spigot: Option<Spigot>,
}

/// A spigot that locates one glued piece in the one before it.
#[derive(Clone, Debug, PartialEq)]
pub struct Spigot {
    /// The whole phrase.
    pub span: Span,
    /// Its diameter.
    pub dia: Expr,
    /// Its length.
    pub length: Expr,
    /// The glue gap on diameter.
    pub gap: Option<Expr>,
}

/// A line of a part, without what its block holds.
pub(crate) fn part_line<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, LineKind> + use<'s> {
    let length = word("length").ignore_then(sums.span(Thing::Length));
    let outside = word("outside").ignore_then(
        sums.after("dia", Thing::Diameter)
            .map(LineKind::OutsideDia)
            .or(open().map(|()| LineKind::Outside(Vec::new()))),
    );
    let from = word("from")
        .ignore_then(needed_name(Thing::End))
        .then_ignore(open())
        .map(|end| LineKind::From {
            end,
            features: Vec::new(),
        });
    let mass = sums
        .after("mass", Thing::Mass)
        .then(sums.after("at", Thing::Length).or_not())
        .map(|(mass, at)| LineKind::Mass { mass, at });
    let ring = sums
        .after("ring", Thing::Diameter)
        .then_ignore(needed_word("by"))
        .then(sums.needed(Thing::Diameter))
        .map(|(inside, cord)| LineKind::Ring { inside, cord });
    choice((
        let_(sums).map(LineKind::Let),
        limit(sums).map(LineKind::Limit),
        want(sums).map(LineKind::Want),
        accept(sums).map(LineKind::Accept),
        bench_named().map(LineKind::Bench),
        blank(sums),
        length.map(LineKind::Length),
        outside,
        from,
        word("side")
            .ignore_then(open())
            .map(|()| LineKind::Side(Vec::new())),
        finish(sums),
        mass,
        sums.after("holds", Thing::Volume).map(LineKind::Holds),
        ring,
        sums.after("arm", Thing::Length).map(LineKind::Arm),
        throw(sums),
        sums.after("pulls", Thing::Force).map(LineKind::Pulls),
        word("grips")
            .ignore_then(sums.range(Thing::Diameter))
            .map(LineKind::Grips),
    ))
    .then_ignore(line_end())
}

/// `finish "…" coat T`
fn finish<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, LineKind> + use<'s> {
    word("finish")
        .ignore_then(needed_string(Thing::FinishName))
        .then_ignore(needed_word("coat"))
        .then(sums.needed(Thing::Length))
        .map(|(name, coat)| LineKind::Finish { name, coat })
}

/// `throw S from END`
fn throw<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, LineKind> + use<'s> {
    sums.after("throw", Thing::Length)
        .then_ignore(needed_word("from"))
        .then(needed_name(Thing::End))
        .map(|(travel, from)| LineKind::Throw { travel, from })
}

fn blank<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, LineKind> + use<'s> {
    let spigot = sums
        .after("spigot", Thing::Diameter)
        .then_ignore(needed_word("for"))
        .then(sums.needed(Thing::Length))
        .then(sums.after("gap", Thing::Length).or_not())
        .map_with(|((dia, length), gap), extra| Spigot {
            span: extra.span(),
            dia,
            length,
            gap,
        });
    let piece = stock(sums)
        .then(sums.after("to", Thing::Length).or_not())
        .then(spigot.or_not())
        .map(|((stock, to), spigot)| LineKind::Blank(Box::new(BlankPiece { stock, to, spigot })));
    word("blank").ignore_then(piece.or(needed_name(Thing::Name).map(LineKind::BlankNamed)))
}

impl Holds for Line {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            LineKind::Let(node) => one(node, visit),
            LineKind::Limit(node) => one(node, visit),
            LineKind::Want(node) => one(node, visit),
            LineKind::Accept(node) => one(node, visit),
            LineKind::Bench(bench) => refers(NameKind::Bench, bench, visit),
            LineKind::BlankNamed(blank) => refers(NameKind::Blank, blank, visit),
            LineKind::Blank(piece) => {
                one(&piece.stock, visit);
                some(&piece.to, visit);
                some(&piece.spigot, visit);
            }
            LineKind::Length(length) => length.each(visit),
            LineKind::Outside(stations) => all(stations, visit),
            LineKind::From { end, features } => {
                refers(NameKind::End, end, visit);
                all(features, visit);
            }
            LineKind::Side(cuts) => all(cuts, visit),
            LineKind::Finish { name, coat } => {
                one(name, visit);
                one(coat, visit);
            }
            LineKind::Throw { travel, from } => {
                one(travel, visit);
                refers(NameKind::End, from, visit);
            }
            LineKind::Grips(range) => one(range, visit),
            LineKind::Mass { mass, at } => {
                one(mass, visit);
                some(at, visit);
            }
            LineKind::Ring { inside, cord } => {
                one(inside, visit);
                one(cord, visit);
            }
            LineKind::OutsideDia(sum)
            | LineKind::Holds(sum)
            | LineKind::Arm(sum)
            | LineKind::Pulls(sum) => one(sum, visit),
            LineKind::Bad => {}
        }
    }
}

impl Holds for Spigot {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.dia, visit);
        one(&self.length, visit);
        some(&self.gap, visit);
    }
}
