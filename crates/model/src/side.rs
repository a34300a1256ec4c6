//! What is cut from the side, or beside the axis: what is left there is not round.

mod size;

use crate::{DrillName, End};
use quillet_geometry::{Angle, Length};
use quillet_syntax::{Span, ast};
pub use size::SideSize;

/// A cut from the side, resolved.
#[derive(Clone, Debug)]
pub struct SideCut {
    /// The statement.
    pub span: Span,
    /// What is cut.
    pub kind: SideCutKind,
    /// Where it lies along the part.
    pub stretch: SideStretch,
    /// How often, and what goes in.
    pub around: Around,
    /// Where its size is written.
    pub size_span: Span,
    /// Its face.
    pub face: Option<ast::Name>,
}

/// Where a cut from the side lies: stations, of which a hole has one alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SideStretch {
    /// The station nearer the first end.
    pub from: Length,
    /// The one nearer the second; the same of a hole.
    pub to: Length,
    /// Where it is written.
    pub span: Span,
}

/// What is cut from the side.
#[derive(Clone, Debug)]
pub enum SideCutKind {
    /// Flats, by twice the distance from the axis at `from` and at `to`.
    Across {
        /// At the stretch's lower station.
        from_dia: Length,
        /// At its upper one.
        to_dia: Length,
    },
    /// Flats of a depth below the outside.
    Deep(Length),
    /// Flats that meet on the outline.
    Sharp,
    /// A hole along the radius.
    Drill {
        /// Diameter.
        dia: Length,
        /// The tool as written.
        tool: DrillName,
        /// How deep.
        depth: SideDepth,
    },
    /// A slot.
    Slot {
        /// Its width round the part.
        width: Length,
        /// How deep.
        depth: SideDepth,
    },
    /// A knurl or engraving, cut.
    Pattern {
        /// What it is, in the maker's words.
        name: ast::Text,
        /// Its depth below the outside.
        deep: Length,
        /// The share of its ring that goes, 0 to 1.
        share: f64,
    },
}

impl SideCutKind {
    /// Whether it is a flat, however its depth is said.
    pub fn is_flat(&self) -> bool {
        matches!(
            self,
            SideCutKind::Across { .. } | SideCutKind::Deep(_) | SideCutKind::Sharp
        )
    }
}

/// How deep a hole or a slot from the side is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SideDepth {
    /// Into the first void.
    Void,
    /// So much below the outside, with a flat floor.
    To {
        /// Below the highest outside over it.
        deep: Length,
        /// Where it is written.
        span: Span,
    },
    /// Out of the other side.
    Through,
}

/// How often a cut is made round the axis, and what goes in.
#[derive(Clone, Debug)]
pub struct Around {
    /// How many, evenly.
    pub count: u32,
    /// Where the middle of the first lies, clockwise of the part's mark.
    pub clock: Angle,
    /// What sits in each.
    pub takes: Option<ast::Name>,
}

/// Holes from an end on a pitch circle.
#[derive(Clone, Debug)]
pub struct CircleHoles {
    /// The statement.
    pub span: Span,
    /// The end they are cut from.
    pub end: End,
    /// Where they start, inward from that end's face.
    pub from: Length,
    /// Where they stop, at full diameter.
    pub to: Length,
    /// They go right to the other end.
    pub through: bool,
    /// Diameter of each.
    pub dia: Length,
    /// The tool as written.
    pub tool: DrillName,
    /// The drill's point; none where they are bored flat.
    pub point: Option<Angle>,
    /// The pitch circle's diameter.
    pub on: Length,
    /// How many, and what goes in.
    pub around: Around,
    /// Where the pitch circle is written.
    pub on_span: Span,
}

/// `finish "…" coat T`: a coat on what is turned.
#[derive(Clone, Debug)]
pub struct Coat {
    /// The statement.
    pub span: Span,
    /// What it is, in the maker's words.
    pub name: ast::Text,
    /// How thick, on the radius.
    pub thickness: Length,
}

/// `throw S from END`: a mechanism's travel.
#[derive(Clone, Copy, Debug)]
pub struct Throw {
    /// The statement.
    pub span: Span,
    /// How much further in what goes into the end stands when it is drawn back.
    pub travel: Length,
    /// The end.
    pub from: End,
}
