//! Limits of size of a thread: the figures of one side, and why there may be none.

use std::fmt;

use quillet_geometry::{Length, Limits};

use super::class::{ThreadClass, ThreadSide};
use crate::Source;

/// Limits of size of an outside thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ExternalLimits {
    /// The class they belong to.
    pub class: ThreadClass,
    /// Major diameter d: what the tenon is turned to.
    pub major: Limits,
    /// Pitch diameter d2.
    pub pitch: Limits,
    /// Greatest minor diameter d1 to a flat root (reference).
    pub minor_max_flat: Length,
    /// Least minor diameter d3 to a rounded root, d2 min - 0.616025 P (reference).
    pub root_min: Length,
    /// Whether the standard prints the figures or they were computed.
    pub from: LimitsFrom,
    /// Where they come from.
    pub source: Source,
}

/// Limits of size of an inside thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InternalLimits {
    /// The class they belong to.
    pub class: ThreadClass,
    /// Minor diameter D1: what the hole is drilled to.
    pub minor: Limits,
    /// Pitch diameter D2.
    pub pitch: Limits,
    /// Least major diameter D.
    pub major_min: Length,
    /// Greatest major diameter, D2 max + 0.793857 P (reference).
    pub major_max: Length,
    /// Whether the standard prints the figures or they were computed.
    pub from: LimitsFrom,
    /// Where they come from.
    pub source: Source,
}

/// Whether figures are printed in a table of the standard or worked out by its formulas.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LimitsFrom {
    /// Every figure stands in a table of the standard.
    Table,
    /// At least one figure was computed: the standard prints no row for this size.
    Formula,
}

impl LimitsFrom {
    /// `table` or `formula`.
    pub const fn word(self) -> &'static str {
        match self {
            LimitsFrom::Table => "table",
            LimitsFrom::Formula => "formula",
        }
    }

    /// Formula as soon as one of both is.
    pub fn and(self, other: LimitsFrom) -> LimitsFrom {
        self.max(other)
    }
}

/// A class that a thread cannot have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitsError {
    /// A class for the other side, or of the other system of units.
    Class {
        /// The class asked for.
        class: ThreadClass,
        /// The side it was asked for.
        side: ThreadSide,
        /// True for an inch thread.
        inch: bool,
    },
    /// The standard has no such grade for a diameter.
    Grade {
        /// The grade asked for.
        grade: u8,
        /// The diameter, and the grades there are.
        of: &'static str,
    },
    /// The position is not used at so fine a pitch.
    Position {
        /// The letter of the position.
        position: char,
        /// The pitch.
        pitch: Length,
    },
}

impl fmt::Display for LimitsError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            LimitsError::Class { class, side, inch } => {
                let wanted = match (inch, side) {
                    (false, ThreadSide::External) => {
                        "an outside metric thread takes 6g, 6h, 4h, 6f or 6e"
                    }
                    (false, ThreadSide::Internal) => {
                        "an inside metric thread takes 6H, 5H, 4H, 7H or 6G"
                    }
                    (true, ThreadSide::External) => "an outside inch thread takes 2A, 3A or 1A",
                    (true, ThreadSide::Internal) => "an inside inch thread takes 2B, 3B or 1B",
                };
                write!(out, "class {class} does not fit here; {wanted}")
            }
            LimitsError::Grade { grade, of } => {
                write!(out, "ISO 965-1 has no grade {grade} for {of}")
            }
            LimitsError::Position { position, pitch } => write!(
                out,
                "ISO 965-1 does not use position {position} at a pitch of {pitch}; g or h was expected"
            ),
        }
    }
}

impl std::error::Error for LimitsError {}

/// From d2 min to the rounded root, as a share of the pitch (ASME B1.13M).
pub(super) const ROUND_ROOT: f64 = 0.616_025;
/// From D2 max to the greatest major diameter, 11H/12, as a share of the pitch (ASME B1.13M).
pub(super) const CREST_CLEARANCE: f64 = 0.793_857;
