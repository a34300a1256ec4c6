//! A cut inside, as data.

use quillet_geometry::{Angle, Length};
use quillet_model::{DrillName, End};

/// A cut inside, from an end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InsideCut {
    /// The end.
    pub end: End,
    /// Where it starts, inward from the face; what lies before is already as wide.
    pub from: Length,
    /// Where its full diameter stops.
    pub to: Length,
    /// It breaks through.
    pub through: bool,
    /// Its shape.
    pub shape: InsideShape,
}

/// The shape of a cut inside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum InsideShape {
    /// Drilled, with its cone beyond.
    Drill {
        /// Diameter.
        dia: Length,
        /// Included angle of the point.
        point: Angle,
        /// How the drill was named.
        name: DrillName,
        /// Opens the way for another cut; no written feature.
        opening: bool,
    },
    /// Bored flat.
    Bore {
        /// Diameter.
        dia: Length,
    },
    /// Reamed.
    Ream {
        /// Diameter.
        dia: Length,
    },
    /// Widened behind a narrower mouth.
    Recess {
        /// Diameter.
        dia: Length,
    },
    /// Tapered.
    Taper {
        /// Diameter at its start.
        from_dia: Length,
        /// Diameter at its end.
        to_dia: Length,
    },
    /// A conical mouth.
    Countersink {
        /// Diameter at the face.
        dia: Length,
        /// Included angle.
        angle: Angle,
    },
}

impl InsideShape {
    /// The diameter that must pass, and that a hole before it must have.
    pub fn widest(self) -> Length {
        match self {
            InsideShape::Drill { dia, .. }
            | InsideShape::Bore { dia }
            | InsideShape::Ream { dia }
            | InsideShape::Recess { dia }
            | InsideShape::Countersink { dia, .. } => dia,
            InsideShape::Taper { from_dia, to_dia } => from_dia.max(to_dia),
        }
    }
}
