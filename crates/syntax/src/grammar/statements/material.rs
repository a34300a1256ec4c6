//! Lines of a material.

use super::{Holds, NameKind, Statement, Visit, all, goes_on, one, refers, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use crate::token::TokenKind as T;
use chumsky::prelude::*;
use quillet_standards::cast::MixBy;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Material, "kind KIND", "The built-in kind whose figures hold where nothing else is said", "kind acrylic"),
    statement(Place::Material, "density DENSITY", "Density in g/cm³", "density 1.19"),
    statement(Place::Material, "wall LENGTH", "The least wall that this material stands", "wall 0.9"),
    statement(Place::Material, "speed LOW..HIGH", "Cutting speed in m/min", "speed 60..120"),
    statement(Place::Material, "modulus MODULUS", "Young's modulus in GPa: how stiff it is", "modulus 2.35"),
    statement(Place::Material, "strain STRAIN", "The strain it bears day by day, in per cent", "strain 2"),
    statement(Place::Material, "mix SHARE : SHARE by (weight | volume)", "How a resin and its hardener are mixed, by its own sheet", "mix 100:10 by weight"),
    statement(Place::Material, "pigment PERCENT", "Pigment in per cent of the mixed mass, on top of it", "pigment 2"),
    statement(Place::Material, "colour \"COLOUR\"", "How it looks in pictures; no rule reads it", "colour \"#6d8a34\""),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::MaterialTail, "by", "What the shares of a mix are shares of", "mix 100:10 by weight"),
    goes_on(Place::MaterialTail, "weight", "Shares of the mass, as a scale tells them", "mix 100:10 by weight"),
    goes_on(Place::MaterialTail, "volume", "Shares of the volume, as a cup tells them", "mix 2:1 by volume"),
];

/// `material name "title" { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// The name it defines.
    pub name: Name,
    /// Its title.
    pub title: Option<Text>,
    /// The lines.
    pub lines: Vec<MaterialLine>,
}

/// A line of a material, with its span.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub struct MaterialLine {
    pub span: Span,
    pub kind: MaterialLineKind,
}

/// What a material's line says.
#[derive(Clone, Debug, PartialEq)]
pub enum MaterialLineKind {
    /// `kind NAME`: one of the built-in kinds.
    Kind(Name),
    /// `density sum`, g/cm³.
    Density(Expr),
    /// `wall sum`: least wall, a length.
    Wall(Expr),
    /// `speed a..b`: cutting speed, m/min.
    Speed(SumSpan),
    /// `colour "#rrggbb"`: how it looks in pictures.
    Colour(Text),
    /// `modulus sum`, GPa.
    Modulus(Expr),
    /// `strain sum`, per cent.
    Strain(Expr),
    /// `mix sum : sum by weight`
    Mix {
        /// The shares of its two parts.
        shares: [Expr; 2],
        /// Of what; none where that is not said.
        by: Option<MixBy>,
    },
    /// `pigment sum`, per cent of the mass.
    Pigment(Expr),
    /// Text that is no such line.
    Bad,
}

/// A line of a material.
pub(crate) fn material_line<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, MaterialLineKind> + use<'s> {
    use MaterialLineKind as Kind;
    choice((
        word("kind")
            .ignore_then(needed_name(Thing::Kind))
            .map(Kind::Kind),
        sums.after("density", Thing::Quantity).map(Kind::Density),
        sums.after("wall", Thing::Length).map(Kind::Wall),
        sums.after("modulus", Thing::Quantity).map(Kind::Modulus),
        sums.after("strain", Thing::Quantity).map(Kind::Strain),
        sums.after("pigment", Thing::Quantity).map(Kind::Pigment),
        mix(sums),
        word("speed")
            .ignore_then(sums.span(Thing::Quantity))
            .map(Kind::Speed),
        word("colour")
            .ignore_then(needed_string(Thing::Colour))
            .map(Kind::Colour),
    ))
    .then_ignore(line_end())
}

/// `mix sum : sum by (weight | volume)`
fn mix<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, MaterialLineKind> + use<'s> {
    let by = choice(MixBy::ALL.map(|by| word(by.word()).to(by)));
    word("mix")
        .ignore_then(sums.needed(Thing::Quantity))
        .then_ignore(needed(T::Colon, Thing::Colon))
        .then(sums.needed(Thing::Quantity))
        .then_ignore(needed_word("by"))
        .then(by.map(Some).recover_with(via_parser(empty().to(None))))
        .map(|((first, second), by)| MaterialLineKind::Mix {
            shares: [first, second],
            by,
        })
}

impl Holds for MaterialLine {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            MaterialLineKind::Kind(kind) => refers(NameKind::Kind, kind, visit),
            MaterialLineKind::Density(sum)
            | MaterialLineKind::Wall(sum)
            | MaterialLineKind::Modulus(sum)
            | MaterialLineKind::Strain(sum)
            | MaterialLineKind::Pigment(sum) => one(sum, visit),
            MaterialLineKind::Mix { shares, .. } => all(shares, visit),
            MaterialLineKind::Speed(speed) => speed.each(visit),
            MaterialLineKind::Colour(colour) => one(colour, visit),
            MaterialLineKind::Bad => {}
        }
    }
}
