//! Cuts made from the side: what is left there is not round.

use super::shared::{accept, as_face};
use super::station::position;
use super::{Holds, NameKind, Statement, Visit, defines, goes_on, one, refers, some, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// A side cut's rule: where it lies and how often, after what it is.
macro_rules! side {
    ($cut:literal) => {
        concat!(
            $cut,
            " at STATION [from END] [.. STATION [from END]] [indexed COUNT] [clock ANGLE] [takes PART] [as FACE]",
        )
    };
}

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Side, "flat (across DIAMETER [to DIAMETER] | deep DEPTH | sharp) at STATION [from END] [.. STATION [from END]] [indexed COUNT] [clock ANGLE] [as FACE]", "Flats: twice the distance from the axis to one, how deep each is cut, or so many that they meet on the outline", "flat across 13.2 at 10..60 indexed 8")
        .rule(side!("flat (across DIAMETER [to DIAMETER] | deep DEPTH | sharp)")),
    statement(Place::Side, "drill SIZE [to DEPTH | through] at STATION [from END] [indexed COUNT] [clock ANGLE] [takes PART] [as FACE]", "A hole along the radius: into the first void, to a depth below the outside, or out of the other side", "drill 1 at 46 clock 90")
        .rule(side!("drill SIZE [to DEPTH | through]")),
    statement(Place::Side, "slot WIDTH [to DEPTH | through] at STATION [from END] [.. STATION [from END]] [indexed COUNT] [clock ANGLE] [takes PART] [as FACE]", "A slot of a width round the part, as long as its stretch; at the part's end it is open", "slot 4.2 at 12..13.2 from crown takes clip")
        .rule(side!("slot WIDTH [to DEPTH | through]")),
    statement(Place::Side, "pattern \"PATTERN\" deep DEPTH [share SHARE] at STATION [from END] [.. STATION [from END]]", "A knurl or engraving that is cut, with the share of its ring that goes; half where nothing is said", "pattern \"straight knurl\" deep 0.25 share 0.5 at 0.5..2.5")
        .rule(side!("pattern \"PATTERN\" deep DEPTH [share SHARE]")),
    statement(Place::Side, "accept RULE [at FROM..TO] because \"REASON\"", "A finding you have judged, with the reason; the sheet prints it", "accept thin-wall because \"a lining follows\""),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::SideTail, "across", "Twice the distance from the axis to the flat: what calipers read where there is a flat opposite", "flat across 13.2 at 10..60 indexed 8"),
    goes_on(Place::SideTail, "to", "Across at the stretch's other end; how deep a hole or slot is, below the outside", "slot 2 to 1 at 30..46 indexed 3"),
    goes_on(Place::SideTail, "deep", "How deep it is cut, below the outside", "flat deep 0.5 at 20..36 clock 180"),
    goes_on(Place::SideTail, "sharp", "The flats meet in edges that lie on the turned outline", "flat sharp at 3..30 indexed 12"),
    goes_on(Place::SideTail, "through", "The cut goes out of the other side", "drill 1.5 through at 12"),
    goes_on(Place::SideTail, "at", "Where it lies along the part: a station, or from one to another", "drill 1 at 46 clock 90"),
    goes_on(Place::SideTail, "from", "The end the length runs from", "flat sharp at 3..6 from crown indexed 12"),
    goes_on(Place::SideTail, "indexed", "How many of them, evenly round the part", "slot 1 at 0..9.5 indexed 6"),
    goes_on(Place::SideTail, "clock", "Where the middle of the first lies: so many degrees clockwise of the part's mark, looking at its first end", "drill 1 at 46 clock 90"),
    goes_on(Place::SideTail, "takes", "What sits in each", "slot 4.2 at 12..13.2 takes clip"),
    goes_on(Place::SideTail, "share", "The share of its ring that the pattern takes away, 0 to 1", "pattern \"straight knurl\" deep 0.25 share 0.4 at 0.5..2.5"),
    goes_on(Place::SideTail, "as", "Names the face at the station written first", "flat sharp at 3..30 indexed 12 as facets"),
];

/// A line of a `side` block.
#[derive(Clone, Debug, PartialEq)]
pub struct SideLine {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: SideLineKind,
}

/// What a line of a `side` block says.
#[derive(Clone, Debug, PartialEq)]
pub enum SideLineKind {
    /// A cut.
    Cut(Box<SideCut>),
    /// `accept …`
    Accept(Box<Accept>),
    /// Text that is no cut.
    Bad,
}

/// A cut from the side.
#[derive(Clone, Debug, PartialEq)]
pub struct SideCut {
    /// What it is.
    pub kind: SideCutKind,
    /// Where it lies along the part.
    pub stretch: Stretch,
    /// How often it is cut and what goes in.
    pub around: Around,
    /// `as NAME`: its face.
    pub face: Option<Name>,
}

/// What is cut from the side.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "fields are the grammar's words")]
pub enum SideCutKind {
    /// `flat across D [to D2]`
    Across { dia: Expr, to: Option<Expr> },
    /// `flat deep T`
    Deep(Expr),
    /// `flat sharp`
    Sharp { span: Span },
    /// `drill SIZE [to L | through]`
    Drill {
        size: Size,
        depth: Option<SideDepth>,
    },
    /// `slot W [to L | through]`
    Slot {
        width: Expr,
        depth: Option<SideDepth>,
    },
    /// `pattern "…" deep T [share S]`
    Pattern {
        name: Text,
        deep: Expr,
        share: Option<Expr>,
    },
}

/// How deep a hole or slot from the side is, where it does not end in the first void.
#[derive(Clone, Debug, PartialEq)]
pub enum SideDepth {
    /// `to L`: below the outside.
    To(Expr),
    /// Out of the other side.
    Through,
}

/// `at PLACE [.. PLACE]`
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// The whole phrase.
    pub span: Span,
    /// Where it lies or begins.
    pub from: Position,
    /// Where it ends.
    pub to: Option<Position>,
}

/// `[indexed N] [clock A] [takes PART]`: how often a cut is made round the part, and what goes in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Around {
    /// `indexed N`
    pub indexed: Option<Expr>,
    /// `clock A`, degrees.
    pub clock: Option<Expr>,
    /// `takes PART`
    pub takes: Option<Name>,
}

/// A line of a `side` block.
pub(crate) fn side_line<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, SideLineKind> + use<'s> {
    let cut = cut(sums)
        .then(stretch(sums))
        .then(around(sums))
        .then(as_face())
        .map(|(((kind, stretch), around), face)| {
            SideLineKind::Cut(Box::new(SideCut {
                kind,
                stretch,
                around,
                face,
            }))
        });
    accept(sums)
        .map(|accept| SideLineKind::Accept(Box::new(accept)))
        .or(cut)
        .then_ignore(line_end())
}

fn cut<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, SideCutKind> + use<'s> {
    let depth = choice((
        sums.after("to", Thing::Length).map(SideDepth::To),
        word("through").to(SideDepth::Through),
    ))
    .boxed();
    let across = sums
        .after("across", Thing::Diameter)
        .then(sums.after("to", Thing::Diameter).or_not())
        .map(|(dia, to)| SideCutKind::Across { dia, to });
    let flat = choice((
        across,
        sums.after("deep", Thing::Length).map(SideCutKind::Deep),
        word("sharp").map(|span| SideCutKind::Sharp { span }),
    ));
    let drill = word("drill")
        .ignore_then(sums.size())
        .then(depth.clone().or_not())
        .map(|(size, depth)| SideCutKind::Drill { size, depth });
    let slot = sums
        .after("slot", Thing::Length)
        .then(depth.or_not())
        .map(|(width, depth)| SideCutKind::Slot { width, depth });
    let pattern = word("pattern")
        .ignore_then(needed_string(Thing::PatternName))
        .then_ignore(needed_word("deep"))
        .then(sums.needed(Thing::Length))
        .then(sums.after("share", Thing::Quantity).or_not())
        .map(|((name, deep), share)| SideCutKind::Pattern { name, deep, share });
    choice((word("flat").ignore_then(flat), drill, slot, pattern))
}

fn stretch<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Stretch> + use<'s> {
    let to = token(T::DotDot, Thing::Range).ignore_then(position(sums));
    needed_word("at")
        .ignore_then(position(sums))
        .then(to.or_not())
        .map_with(|(from, to), extra| Stretch {
            span: extra.span(),
            from,
            to,
        })
}

/// `[indexed N] [clock A] [takes PART]`
pub(crate) fn around<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Around> + use<'s> {
    sums.after("indexed", Thing::Count)
        .or_not()
        .then(sums.after("clock", Thing::Angle).or_not())
        .then(takes().or_not())
        .map(|((indexed, clock), takes)| Around {
            indexed,
            clock,
            takes,
        })
}

/// `takes PART`
pub(crate) fn takes<'s>() -> impl TokenParser<'s, Name> {
    word("takes").ignore_then(needed_name(Thing::Part))
}

impl Holds for SideLine {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            SideLineKind::Cut(cut) => {
                cut.kind.each(visit);
                one(&cut.stretch, visit);
                cut.around.each(visit);
                if let Some(face) = &cut.face {
                    defines(NameKind::Face, face, visit);
                }
            }
            SideLineKind::Accept(accept) => one(&**accept, visit),
            SideLineKind::Bad => {}
        }
    }
}

/// No node of its own.
impl Holds for SideCutKind {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match self {
            SideCutKind::Across { dia, to } => {
                one(dia, visit);
                some(to, visit);
            }
            SideCutKind::Deep(deep) => one(deep, visit),
            SideCutKind::Sharp { .. } => {}
            SideCutKind::Drill { size, depth } => {
                one(size, visit);
                depth.each(visit);
            }
            SideCutKind::Slot { width, depth } => {
                one(width, visit);
                depth.each(visit);
            }
            SideCutKind::Pattern { name, deep, share } => {
                one(name, visit);
                one(deep, visit);
                some(share, visit);
            }
        }
    }
}

/// No node of its own.
impl Holds for Option<SideDepth> {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        if let Some(SideDepth::To(depth)) = self {
            one(depth, visit);
        }
    }
}

impl Holds for Stretch {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        self.from.each(visit);
        if let Some(to) = &self.to {
            to.each(visit);
        }
    }
}

/// No node of its own.
impl Holds for Around {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        some(&self.indexed, visit);
        some(&self.clock, visit);
        if let Some(takes) = &self.takes {
            refers(NameKind::Part, takes, visit);
        }
    }
}
