//! An operation: one numbered line of a route.

use crate::{Inspection, Peck, RouteId, SinglePoint, Speed, Tool, Work, Workholding};
use quillet_geometry::{Angle, Length};
use quillet_model::{CutId, End};
use std::sync::Arc;

/// One numbered line of a route.
#[derive(Clone, Debug)]
pub struct Operation {
    /// What is done.
    pub work: Work,
    /// How the work is held.
    pub hold: Workholding,
    /// With what; none where only the hold changes.
    pub tool: Option<Tool>,
    /// The cuts it finishes.
    pub features: Vec<CutId>,
    /// How deep, from which face.
    pub depth: Option<Depth>,
    /// How fast; none where the spindle stands still.
    pub speed: Option<Speed>,
    /// The spindle is locked and the power off: the tool is turned by hand.
    pub by_hand: bool,
    /// How often to withdraw.
    pub peck: Option<Peck>,
    /// Which figures the tailstock's scale shows.
    pub tailstock: Option<Tailstock>,
    /// A thread by a single point: what time there is to stop.
    pub single_point: Option<SinglePoint>,
    /// What the calipers must say afterwards.
    pub checks: Vec<Inspection>,
    /// What to mind.
    pub notes: Vec<Note>,
    /// Operations that must come before it (indices into the route).
    pub needs: Vec<usize>,
    /// One of another part's that must come before it.
    pub after: Option<OperationRef>,
    /// What was read of it; none where it is not made yet, or nothing is said of what is.
    pub as_made: Option<AsMade>,
}

/// What was read of an operation that is made; nothing of a size that was not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct AsMade {
    /// Its diameter.
    pub dia: Option<Length>,
    /// Its depth, its shoulder, or the length over all.
    pub length: Option<Length>,
}

/// A depth from a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Depth {
    /// The end whose face it is measured from.
    pub from: End,
    /// To the end of the full diameter.
    pub to_corner: Length,
    /// To the point of the drill, where it has one.
    pub to_point: Option<Length>,
}

/// Readings of the tailstock's scale, set to nought as the tool's point touches the face.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tailstock {
    /// The reading at which to stop, one for each setting of the tailstock: where its travel
    /// is shorter than the hole it is moved up and set to nought again.
    pub stops: Vec<Length>,
}

/// What to mind at an operation.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// A left-hand thread holds the work: forward rotation unscrews it.
    LeftHandUnscrews,
    /// The thread that is cut is left-handed: tap and die go on the other way round.
    LeftHandThread,
    /// Sanding in reverse unscrews a right-hand thread.
    ReverseUnscrews,
    /// Single-pointing several starts: index so many degrees of spindle, or so far along the
    /// compound, between them.
    IndexStarts {
        /// How many.
        starts: u32,
        /// The pitch, along the compound.
        pitch: Length,
        /// The turn of the spindle, degrees.
        turn_deg: f64,
    },
    /// The hole is larger than one already there: dub the drill's lips, or it grabs.
    DubLips,
    /// A flat-bottomed drill or counterbore does it where no boring bar is at hand.
    FlatBottomed,
    /// It breaks through: ease the feed.
    BreaksThrough,
    /// Leave it to cool; a hot drill grabs.
    LetCool,
    /// Glue must cure a day before any cut, or as its own data sheet says.
    Cure,
    /// The glue line is wiped clean, and clear of what is bored.
    CleanLine,
    /// Line the grain or pattern up before it sets.
    LineUp,
    /// Metal on metal or metal on resin: clean and roughen before gluing.
    Degrease,
    /// The outside is turned and sanded so much under the written diameters: a coat brings the rest.
    UnderCoat {
        /// On diameter.
        under: Length,
    },
    /// A coat goes on what is sanded; joints and seats are masked.
    Coat {
        /// What it is, in the maker's words.
        name: String,
        /// How thick, on the radius.
        thickness: Length,
    },
    /// No cutting speed is known for this material: begin slowly.
    SpeedUnknown,
    /// The thread begins here: so far clockwise of the part's mark, looking at the end.
    BeginsAt {
        /// The turn from the mark.
        clockwise: Angle,
    },
    /// No step of the lathe leaves time to stop a single point: turn the spindle by the crank, and
    /// so too where the half-nuts cannot be opened.
    ByCrank,
    /// On a threaded mandrel the work is held while a tap or a trial piece backs out, else it
    /// unscrews.
    HoldWork,
    /// The tail centre is drawn back; light cuts, the collet drawn up or screwed on, never a bare
    /// taper.
    CentreBack,
    /// Face until clean: the other end decides the length.
    UntilClean,
    /// Face to a length that still has the centre nub in it.
    LongWithNub {
        /// The length over all, nub and all.
        length: Length,
    },
    /// A wider cut has opened the mouth, so no caliper reads this hole: the drill's shank, or a pin
    /// of this size, goes home in it.
    ShankGoesHome {
        /// The diameter.
        dia: Length,
        /// Of a fit: a pin of this size does not go in.
        stays_out: Option<Length>,
    },
    /// Turned to the hole it is glued into, as that came out: so much under it.
    ToTheHole {
        /// The outside as drawn, at its fattest.
        drawn: Length,
        /// On diameter.
        under: Length,
    },
    /// It goes into a hole that is made, and is turned to that.
    ToSuit {
        /// The part that has the hole.
        mate: Arc<str>,
        /// The hole as it came out.
        hole: Length,
        /// What goes in, as drawn.
        drawn: Length,
    },
    /// Glued in before, it is faced with the part: both ends level.
    LevelWith {
        /// What is glued in.
        part: Arc<str>,
    },
    /// It lies behind a narrower mouth, where neither caliper nor pin reads it: the slide's scale does.
    FeedFromTouch {
        /// How far the tool is fed from where it touches the hole, a side.
        depth: Length,
    },
    /// The start of the thread decides where cap and pattern line up.
    Clock {
        /// Positions in which it goes on.
        positions: u32,
        /// Faced off the shoulder to turn it by 10°.
        per_ten_deg: Length,
    },
}

/// One operation of one route.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OperationRef {
    /// The route.
    pub route: RouteId,
    /// An index into its operations.
    pub operation: usize,
}
