//! Phrases that stand in several statements.

use super::{Holds, NameKind, Visit, one, refers, some};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// A thread designation, with its starts where said.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// The whole form.
    pub span: Span,
    /// The designation as written, `M13x0.8-6g`.
    pub designation: Text,
    /// `starts sum`.
    pub starts: Option<Expr>,
}

/// `of material (rod | square) size [by length]`, or `of material tube size wall wall …`
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// The whole phrase.
    pub span: Span,
    /// The material's name.
    pub material: Name,
    /// Round, square or a tube.
    pub section: StockSection,
    /// Diameter, or width over flats.
    pub size: Expr,
    /// A tube's wall.
    pub wall: Option<Expr>,
    /// Length, where said.
    pub length: Option<Expr>,
}

/// The cross-section of stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StockSection {
    /// Round, given by its diameter.
    Rod,
    /// Square, given by its side.
    Square,
    /// A tube, given by its outside diameter and its wall.
    Tube,
}

impl StockSection {
    /// The grammar's word.
    pub fn word(self) -> &'static str {
        match self {
            StockSection::Rod => "rod",
            StockSection::Square => "square",
            StockSection::Tube => "tube",
        }
    }
}

/// A thread named or written in place.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "the variants say it")]
pub enum ThreadRef {
    Named(Name),
    Written(Form),
}

/// A broken corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// Where it stands.
    pub span: Span,
    /// Round or chamfer.
    pub kind: EdgeKind,
    /// Its radius or leg.
    pub size: Expr,
}

/// The two ways to break a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum EdgeKind {
    Round,
    Chamfer,
}

/// `of material (rod size | square size | tube size wall wall) [by length]`
pub(crate) fn stock<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Stock> + use<'s> {
    let solid = choice((
        word("rod").to(StockSection::Rod),
        word("square").to(StockSection::Square),
    ))
    .then(sums.needed(Thing::Diameter))
    .map(|(section, size)| (section, size, None));
    let tube = sums
        .after("tube", Thing::Diameter)
        .then_ignore(needed_word("wall"))
        .then(sums.needed(Thing::Length))
        .map(|(size, wall)| (StockSection::Tube, size, Some(wall)));
    // A size without its word is a rod's.
    let missing = sums.maybe(Thing::Diameter).map_with(|size, extra| {
        let nothing = || Expr {
            span: nothing(extra.span()),
            kind: ExprKind::Bad,
        };
        (StockSection::Rod, size.unwrap_or_else(nothing), None)
    });
    let section = solid.or(tube).recover_with(via_parser(missing));
    word("of")
        .ignore_then(needed_name(Thing::Material))
        .then(section)
        .then(sums.after("by", Thing::Length).or_not())
        .map_with(|((material, (section, size, wall)), length), extra| Stock {
            span: extra.span(),
            material,
            section,
            size,
            wall,
            length,
        })
}

/// A designation with its starts; an inch one may leave out its series.
pub(crate) fn form<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Form> + use<'s> {
    let bare = touching(
        &[T::Quantity, T::Slash, T::Minus],
        Thing::Designation,
        is_bare_inch,
    );
    text_of(T::Thread, Thing::Designation)
        .or(bare)
        .then(sums.after("starts", Thing::Count).or_not())
        .map_with(|((text, span), starts), extra| Form {
            span: extra.span(),
            designation: Text {
                text: text.into(),
                span,
            },
            starts,
        })
}

/// A size in inches and threads to the inch: `7/16-14`, `1-1/8-12`, `#10-32`, `0.5-28`.
fn is_bare_inch(text: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|it| it.is_ascii_digit());
    text.rsplit_once('-').is_some_and(|(size, pitch)| {
        let size = size.strip_prefix('#').unwrap_or(size);
        digits(pitch) && size.split(['/', '-', '.']).all(digits) && size.matches('/').count() <= 1
    })
}

/// A thread's name or a form; where neither comes, an empty name stands for it.
pub(crate) fn thread_ref<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, ThreadRef> + use<'s> {
    let written = form(sums).map(ThreadRef::Written);
    let named = name(Thing::Thread).map(ThreadRef::Named);
    written
        .or(named)
        .labelled(Thing::Thread)
        .recover_with(via_parser(no_name().map(ThreadRef::Named)))
}

/// `round r` or `chamfer c`
pub(crate) fn edge<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Edge> + use<'s> {
    let round = word("round").to(EdgeKind::Round);
    let chamfer = word("chamfer").to(EdgeKind::Chamfer);
    let round = round.then(sums.needed(Thing::Radius));
    let chamfer = chamfer.then(sums.needed(Thing::Length));
    round.or(chamfer).map_with(|(kind, size), extra| Edge {
        span: extra.span(),
        kind,
        size,
    })
}

impl Holds for Form {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.designation, visit);
        some(&self.starts, visit);
    }
}

impl Holds for Stock {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        refers(NameKind::Material, &self.material, visit);
        one(&self.size, visit);
        some(&self.wall, visit);
        some(&self.length, visit);
    }
}

/// No node of its own.
impl Holds for ThreadRef {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match self {
            ThreadRef::Named(name) => refers(NameKind::Thread, name, visit),
            ThreadRef::Written(form) => one(form, visit),
        }
    }
}

impl Holds for Edge {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.size, visit);
    }
}
