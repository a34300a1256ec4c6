//! Stations of an outside.

use super::phrase::edge;
use super::shared::as_face;
use super::{Holds, NameKind, Statement, Visit, defines, goes_on, one, refers, some, statement};
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
    statement(Place::Station, "at STATION [from END] dia DIAMETER [smooth | dome | bead RADIUS | cove RADIUS] [step DIAMETER] [round RADIUS | chamfer LEG] [as FACE]", "A station: a length from the first end, from another end, or an end's name", "at 6 from crown dia 14.4 smooth"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::StationTail, "from", "The end the length runs from", "at 6 from crown dia 14.4"),
    goes_on(Place::StationTail, "dia", "The finished diameter", "at 30 dia 15.8"),
    goes_on(Place::StationTail, "smooth", "The surface comes to the station in a smooth curve that never overshoots", "at 30 dia 15.8 smooth"),
    goes_on(Place::StationTail, "dome", "The surface closes in a quarter ellipse", "at crown dia 0 dome"),
    goes_on(Place::StationTail, "bead", "The surface comes to the station in a convex arc of a radius", "at 12 dia 14 bead 3"),
    goes_on(Place::StationTail, "cove", "The surface comes to the station in a concave arc of a radius", "at 12 dia 14 cove 3"),
    goes_on(Place::StationTail, "step", "The surface arrives at the first diameter and leaves at this one", "at 20 dia 12 step 10"),
    goes_on(Place::StationTail, "round", "Rounds the corner with a radius", "at 20 dia 12 round 0.5"),
    goes_on(Place::StationTail, "chamfer", "Breaks the corner at 45°; the figure is the leg", "at 20 dia 12 chamfer 0.5"),
    goes_on(Place::StationTail, "as", "Names the face here, for seat and distance", "at 22 dia 11.4 as shoulder"),
];

/// `at z dia d …`
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// The statement.
    pub span: Span,
    /// What it says, or `None` where it could not be read.
    pub content: Option<StationContent>,
}

/// What a station says.
#[derive(Clone, Debug, PartialEq)]
pub struct StationContent {
    /// Where it is.
    pub at: Position,
    /// The diameter.
    pub dia: Expr,
    /// How the surface comes to the station.
    pub shape: Option<Shape>,
    /// `step D2`: the diameter it leaves at.
    pub step: Option<Expr>,
    /// The broken corner.
    pub edge: Option<Edge>,
    /// `as NAME`
    pub face: Option<Name>,
}

/// A place along a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// A length from the first end, or an end's name.
    pub at: Expr,
    /// `from END`: the end the length runs from.
    pub from: Option<Name>,
}

/// How a surface comes to a station.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Where it stands.
    pub span: Span,
    /// What it is.
    pub kind: ShapeKind,
}

/// The shapes besides straight, which has no word.
#[derive(Clone, Debug, PartialEq)]
pub enum ShapeKind {
    /// A monotone cubic.
    Smooth,
    /// A quarter ellipse.
    Dome,
    /// A convex arc of a radius.
    Bead(Expr),
    /// A concave arc of a radius.
    Cove(Expr),
}

/// A station.
pub(crate) fn station<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, StationContent> + use<'s> {
    let shape = choice((
        word("smooth").to(ShapeKind::Smooth),
        word("dome").to(ShapeKind::Dome),
        sums.after("bead", Thing::Radius).map(ShapeKind::Bead),
        sums.after("cove", Thing::Radius).map(ShapeKind::Cove),
    ))
    .map_with(|kind, extra| Shape {
        span: extra.span(),
        kind,
    });
    word("at")
        .ignore_then(position(sums))
        .then_ignore(needed_word("dia"))
        .then(sums.needed(Thing::Diameter))
        .then(shape.or_not())
        .then(sums.after("step", Thing::Diameter).or_not())
        .then(edge(sums).or_not())
        .then(as_face())
        .map(
            |(((((at, dia), shape), step), edge), face)| StationContent {
                at,
                dia,
                shape,
                step,
                edge,
                face,
            },
        )
        .then_ignore(line_end())
}

/// `sum [from END]`
pub(crate) fn position<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Position> + use<'s> {
    let from = word("from").ignore_then(needed_name(Thing::End));
    sums.needed(Thing::StationPlace)
        .then(from.or_not())
        .map(|(at, from)| Position { at, from })
}

impl Holds for Station {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        let Some(content) = &self.content else { return };
        content.at.each(visit);
        one(&content.dia, visit);
        some(&content.shape, visit);
        some(&content.step, visit);
        some(&content.edge, visit);
        if let Some(face) = &content.face {
            defines(NameKind::Face, face, visit);
        }
    }
}

/// No node of its own.
impl Holds for Position {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.at, visit);
        if let Some(end) = &self.from {
            refers(NameKind::End, end, visit);
        }
    }
}

impl Holds for Shape {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            ShapeKind::Bead(radius) | ShapeKind::Cove(radius) => one(radius, visit),
            ShapeKind::Smooth | ShapeKind::Dome => {}
        }
    }
}
