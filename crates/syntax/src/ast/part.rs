//! Parts the maker cuts and parts that are bought.

use super::{Accept, Expr, Form, Let, Limit, Name, Size, Stock, SumSpan, Text};
use crate::Span;

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

/// `at z dia d …`
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// The statement.
    pub span: Span,
    /// What it says, or `None` where it could not be read.
    pub said: Option<StationSaid>,
}

/// What a station says.
#[derive(Clone, Debug, PartialEq)]
pub struct StationSaid {
    /// The station: a length from the first end, or an end's name.
    pub at: Expr,
    /// `from END`
    pub from: Option<Name>,
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

/// A cut made from an end.
#[derive(Clone, Debug, PartialEq)]
pub struct Feature {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: FeatureKind,
    /// `as NAME`: its face.
    pub face: Option<Name>,
}

/// What a cut says.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "fields are the grammar's words")]
pub enum FeatureKind {
    /// `tenon [D] for L`
    Tenon { dia: Option<Expr>, length: Expr },
    /// `drill SIZE reach [point A]`
    Drill {
        size: Size,
        reach: Reach,
        point: Option<Expr>,
    },
    /// `bore SIZE reach`
    Bore { size: Size, reach: Reach },
    /// `ream SIZE reach`
    Ream { size: Size, reach: Reach },
    /// `thread T inside|outside reach`
    Thread {
        thread: ThreadRef,
        side: Side,
        reach: Reach,
        clock: Option<Expr>,
    },
    /// `relief D reach`
    Relief { dia: Expr, reach: Reach },
    /// `groove D reach [takes NAME]`
    Groove {
        dia: Expr,
        reach: Reach,
        takes: Option<Name>,
    },
    /// `recess D reach [takes NAME]`
    Recess {
        dia: Expr,
        reach: Reach,
        takes: Option<Name>,
    },
    /// `taper D1 to D2 reach`
    Taper { from: Expr, to: Expr, reach: Reach },
    /// `countersink D [angle A]`
    Countersink { dia: Expr, angle: Option<Expr> },
    /// `chamfer C` or `round R`
    Edge(Edge),
    /// `accept …`
    Accept(Accept),
    /// Text that is no cut.
    Bad,
}

/// A thread named or written in place.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "the variants say it")]
pub enum ThreadRef {
    Named(Name),
    Written(Form),
}

/// Where a thread is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum Side {
    Inside,
    Outside,
}

/// How far a cut goes, and from where.
#[derive(Clone, Debug, PartialEq)]
pub struct Reach {
    /// The whole phrase.
    pub span: Span,
    /// `for`, `to` or `through`.
    pub kind: ReachKind,
    /// `at S`: where it starts, from the face.
    pub at: Option<Expr>,
}

/// The three ways to say how far.
#[derive(Clone, Debug, PartialEq)]
pub enum ReachKind {
    /// `for L`: an amount.
    For(Expr),
    /// `to L`: a place, from the face.
    To(Expr),
    /// To the other end.
    Through,
}
