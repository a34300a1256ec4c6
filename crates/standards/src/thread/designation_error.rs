//! What is wrong with a designation, and where.

use std::fmt;
use std::ops::Range;

/// A designation that cannot be read: what is, what was expected, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DesignationError {
    /// What is wrong.
    pub kind: DesignationFault,
    /// The bytes of the designation it is about.
    pub at: Range<usize>,
    message: String,
}

/// The ways in which a designation can be wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DesignationFault {
    /// It is neither a metric nor a unified inch designation.
    Unreadable,
    /// A number is missing or cannot be read.
    Number,
    /// A diameter, pitch or count beyond what can be cut.
    OutOfRange,
    /// No pitch is given and the size has no coarse pitch.
    NoCoarsePitch,
    /// The pitch is too coarse for the diameter.
    TooCoarse,
    /// The lead is no whole number of pitches, or contradicts the starts.
    Starts,
    /// The tolerance class cannot be read or does not belong to the thread.
    Class,
}

impl DesignationError {
    pub(super) fn new(kind: DesignationFault, at: Range<usize>, message: String) -> Self {
        DesignationError { kind, at, message }
    }
}

impl fmt::Display for DesignationError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.message)
    }
}

impl std::error::Error for DesignationError {}
