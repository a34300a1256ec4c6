//! A mate tried on, as data.

use quillet_geometry::Length;
use quillet_model::End;
use std::sync::Arc;

/// A stop: the mate is tried by hand before going on.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialFit {
    /// The end of this part.
    pub end: End,
    /// The part it is tried with, by name.
    pub mate: Arc<str>,
    /// The mate is bought.
    pub bought: bool,
    /// It is the mandrel's copy of the mate, the mate itself not being cut yet.
    pub copy: bool,
    /// This part goes into it.
    pub goes_in: bool,
    /// How far from the end it is met when home: all that is cut there comes before.
    pub depth: Length,
    /// Threaded: the turns from where it catches until it is home, as expected.
    pub turns: Option<f64>,
    /// What shows that it is home; none where nothing would stop it.
    pub home: Option<Home>,
}

/// What shows that a mate is home.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Home {
    /// Two places bear on each other all round.
    Bears {
        /// On the part in the lathe, or one that goes with it.
        own: Bearing,
        /// On the mate, or one that goes with it.
        mate: Bearing,
    },
    /// The mandrel's shoulder bears on the face all round.
    Shoulder,
    /// It goes in so far, and stays there by friction.
    GoesIn(Length),
    /// Nothing stops it: its far face is set level with the mouth it goes into.
    Level,
    /// A press fit starts square and stands out by hand.
    StandsOut,
}

/// A place that bears on another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bearing {
    /// The part, by name.
    pub part: Arc<str>,
    /// Its face, where it has a name.
    pub face: Option<Arc<str>>,
    /// The station on that part.
    pub at: Length,
}
