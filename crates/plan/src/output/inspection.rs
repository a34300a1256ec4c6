//! What the calipers must say after an operation.

use quillet_geometry::{Length, Limits};
use quillet_model::{End, Hand};
use quillet_standards::Source;
use quillet_syntax::ast::ToleranceKind;

/// One measurement, with its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Inspection {
    /// What is measured.
    pub what: Measured,
    /// The size drawn.
    pub nominal: Length,
    /// Between what it must lie.
    pub limits: Limits,
    /// Where the limits come from.
    pub source: Source,
}

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// An outside diameter, at a distance from an end's face.
    Outside {
        /// The end.
        end: End,
        /// The distance.
        at: Length,
    },
    /// The diameter of a hole at an end.
    Hole {
        /// The end.
        end: End,
    },
    /// The depth of a coned hole at its point: no depth rod reads its corner.
    Point {
        /// The end.
        end: End,
    },
    /// A depth or shoulder from an end's face.
    Depth {
        /// The end.
        end: End,
    },
    /// The length over all.
    Length,
}

/// Limits of a size that asks for nothing in particular: as the hand keeps it.
pub(crate) fn general(
    hand: &Hand,
    kept: ToleranceKind,
    what: Measured,
    nominal: Length,
) -> Inspection {
    Inspection {
        what,
        nominal,
        limits: kept_limits(hand, kept, nominal),
        source: hand.source(kept),
    }
}

/// Between what the hand keeps a size.
pub(crate) fn kept_limits(hand: &Hand, kept: ToleranceKind, nominal: Length) -> Limits {
    let either = hand.keeps(kept, nominal);
    match kept {
        // A drill cuts no smaller than itself, but it may cut to size.
        ToleranceKind::Drill => Limits::new(nominal, nominal + either),
        _ => Limits::new(nominal - either, nominal + either),
    }
}
