//! `ThreadForm`: a 60° thread by its size, starts, hand and classes.

use quillet_geometry::Length;

use super::class::{ThreadClass, ThreadSide};

/// A 60° thread of the ISO 68-1 profile: metric, or unified inch.
///
/// Read from a designation with `parse`, printed as one with `to_string`. Two forms that are equal
/// are the same thread, cut to the same classes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ThreadForm {
    size: ThreadSize,
    starts: u32,
    hand: Hand,
    external: Option<ThreadClass>,
    internal: Option<ThreadClass>,
}

/// The nominal size of a thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ThreadSize {
    /// Metric: major diameter and pitch.
    Metric {
        /// Major diameter.
        major: Length,
        /// Pitch, from a thread to the next.
        pitch: Length,
    },
    /// Unified inch: major diameter, threads per inch and the series it belongs to.
    Inch {
        /// Major diameter, exact.
        major: Length,
        /// Threads per inch; the pitch is 25.4 mm over it.
        tpi: u32,
        /// The series.
        series: InchSeries,
    },
}

/// A series of unified threads (ASME B1.1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum InchSeries {
    /// Coarse.
    Unc,
    /// Fine.
    Unf,
    /// Extra fine.
    Unef,
    /// Constant pitch.
    Un,
    /// Special: a pairing of diameter and pitch of no standard series.
    Uns,
}

impl InchSeries {
    /// The letters of a designation.
    pub const fn letters(self) -> &'static str {
        match self {
            InchSeries::Unc => "UNC",
            InchSeries::Unf => "UNF",
            InchSeries::Unef => "UNEF",
            InchSeries::Un => "UN",
            InchSeries::Uns => "UNS",
        }
    }

    pub(super) const ALL: [InchSeries; 5] = [
        InchSeries::Unc,
        InchSeries::Unf,
        InchSeries::Unef,
        InchSeries::Un,
        InchSeries::Uns,
    ];
}

/// Which way a thread winds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Hand {
    /// Right hand: tightens clockwise.
    #[default]
    Right,
    /// Left hand, `LH`.
    Left,
}

impl ThreadForm {
    /// The most starts a thread may have here; none is cut with more.
    pub const MOST_STARTS: u32 = 24;

    /// A metric thread with one start.
    pub const fn metric(major: Length, pitch: Length) -> ThreadForm {
        ThreadForm::single(ThreadSize::Metric { major, pitch })
    }

    /// A unified inch thread with one start.
    pub const fn inch(major: Length, tpi: u32, series: InchSeries) -> ThreadForm {
        ThreadForm::single(ThreadSize::Inch { major, tpi, series })
    }

    const fn single(size: ThreadSize) -> ThreadForm {
        ThreadForm {
            size,
            starts: 1,
            hand: Hand::Right,
            external: None,
            internal: None,
        }
    }

    /// The same thread with so many starts: pitch and limits stay, the lead grows.
    /// Zero counts as one; more than [`ThreadForm::MOST_STARTS`] as that many.
    pub fn with_starts(self, starts: u32) -> ThreadForm {
        ThreadForm {
            starts: starts.clamp(1, ThreadForm::MOST_STARTS),
            ..self
        }
    }

    /// The same thread of the other or the same hand.
    pub const fn with_hand(self, hand: Hand) -> ThreadForm {
        ThreadForm { hand, ..self }
    }

    /// The same thread with its outside or inside class said.
    pub fn with_class(self, class: ThreadClass) -> ThreadForm {
        match class.side() {
            ThreadSide::External => ThreadForm {
                external: Some(class),
                ..self
            },
            ThreadSide::Internal => ThreadForm {
                internal: Some(class),
                ..self
            },
        }
    }

    /// The same thread with no class said.
    pub const fn without_classes(self) -> ThreadForm {
        ThreadForm {
            external: None,
            internal: None,
            ..self
        }
    }

    /// Size and pitch.
    pub const fn size(&self) -> ThreadSize {
        self.size
    }

    /// The number of starts, one or more.
    pub const fn starts(&self) -> u32 {
        self.starts
    }

    /// Which way it winds.
    pub const fn hand(&self) -> Hand {
        self.hand
    }

    /// The class that was said for this side, if any.
    pub const fn stated_class(&self, side: ThreadSide) -> Option<ThreadClass> {
        match side {
            ThreadSide::External => self.external,
            ThreadSide::Internal => self.internal,
        }
    }

    /// The class of this side: the one said, else 6g and 6H, or 2A and 2B in inches.
    pub fn class(&self, side: ThreadSide) -> ThreadClass {
        self.stated_class(side)
            .unwrap_or(match (self.is_inch(), side) {
                (false, ThreadSide::External) => ThreadClass::METRIC_EXTERNAL,
                (false, ThreadSide::Internal) => ThreadClass::METRIC_INTERNAL,
                (true, ThreadSide::External) => ThreadClass::INCH_EXTERNAL,
                (true, ThreadSide::Internal) => ThreadClass::INCH_INTERNAL,
            })
    }

    /// True for a unified inch thread.
    pub const fn is_inch(&self) -> bool {
        matches!(self.size, ThreadSize::Inch { .. })
    }

    /// True where both screw together: same size, pitch, starts and hand, whatever their classes
    /// and series letters.
    pub fn mates_with(&self, other: &ThreadForm) -> bool {
        self.major() == other.major()
            && self.pitch() == other.pitch()
            && self.is_inch() == other.is_inch()
            && self.starts == other.starts
            && self.hand == other.hand
    }
}
