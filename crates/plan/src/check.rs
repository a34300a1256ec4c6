//! What the calipers must say after an operation.

use quillet_geometry::{Length, Limits};
use quillet_model::End;
use quillet_standards::Source;

/// One measurement, with its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
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
    /// A depth or shoulder from an end's face.
    Depth {
        /// The end.
        end: End,
    },
    /// The length over all.
    Length,
}

/// Limits of a size that asks for nothing in particular: ISO 2768-1, fine.
pub(crate) fn general(what: Measured, nominal: Length) -> Check {
    let either = general_tolerance(nominal);
    Check {
        what,
        nominal,
        limits: Limits::new(nominal - either, nominal + either),
        source: GENERAL,
    }
}

const GENERAL: Source = Source::new("ISO 2768-1 class f, from memory");

/// The permissible deviation either way for linear sizes, class f (fine).
pub fn general_tolerance(nominal: Length) -> Length {
    let um = match nominal.to_mm() {
        mm if mm <= 6.0 => 50,
        mm if mm <= 30.0 => 100,
        mm if mm <= 120.0 => 150,
        _ => 200,
    };
    Length::from_nm(um * 1000)
}
