//! What stands in the way of making a part on a bench: facts, for the checker to word.

use crate::{MandrelId, SpeedLimit};
use quillet_geometry::Length;
use quillet_model::{CircleId, CutId, End, PieceId, SideId, ThreadDef};
use std::sync::Arc;

/// One obstacle.
#[derive(Clone, Debug)]
pub enum PlanProblem {
    /// No drill of a size, and nothing else that makes the hole.
    NoDrill {
        /// What asks for it.
        hole: DrilledHole,
        /// The size asked for.
        wanted: Length,
        /// A flat-bottomed one.
        flat: bool,
        /// The next smaller one on the bench.
        below: Option<Length>,
        /// The next larger one.
        above: Option<Length>,
    },
    /// No reamer of a size.
    NoReamer {
        /// The cut.
        feature: CutId,
        /// The size.
        wanted: Length,
    },
    /// No tap, and the lathe is not geared for threads.
    NoTap {
        /// The cut.
        feature: CutId,
        /// The thread.
        thread: Arc<ThreadDef>,
    },
    /// No die, and the lathe is not geared for threads.
    NoDie {
        /// The cut.
        feature: CutId,
        /// The thread.
        thread: Arc<ThreadDef>,
    },
    /// The spindle cannot be locked at so many places, evenly round.
    NoIndex {
        /// The cut from the side, or the holes.
        cut: Indexed,
        /// At how many places it is made.
        places: u32,
    },
    /// No cutter of a slot's width.
    NoCutter {
        /// The slot.
        cut: SideId,
        /// The width.
        wanted: Length,
        /// The next narrower one on the bench.
        below: Option<Length>,
        /// The next wider one.
        above: Option<Length>,
    },
    /// No collet grips the stock, nor what it could be rounded to.
    NoCollet {
        /// The piece of the blank.
        piece: PieceId,
        /// The stock.
        stock: Length,
        /// The least diameter the part needs.
        least: Length,
    },
    /// No bushing of a tenon's size, where tenons are cut with bushings.
    NoBushing {
        /// The cut.
        feature: CutId,
        /// The size.
        wanted: Length,
        /// The nearest at hand.
        nearest: Option<Length>,
    },
    /// A tool or the tailstock does not reach the bottom.
    BeyondReach {
        /// The cut.
        feature: CutId,
        /// How far the tool must go, the point counted.
        needed: Length,
        /// How far it goes.
        reach: Length,
        /// What falls short.
        short: Shortfall,
    },
    /// The stock does not hold the part.
    BlankTooThin {
        /// The piece of the blank.
        piece: PieceId,
        /// The stock.
        stock: Length,
        /// The fattest place of the part on it.
        fattest: Length,
        /// What is wanted over that, a side.
        margin: Length,
    },
    /// The stock is shorter than the part with all that is cut away.
    BlankTooShort {
        /// The piece of the blank.
        piece: PieceId,
        /// The stock.
        stock: Length,
        /// What is needed.
        needed: Length,
    },
    /// The lathe cannot go as slowly, or as fast, as the work asks.
    NoSpeed {
        /// The cut; none for the outside.
        feature: Option<CutId>,
        /// What is wrong.
        limit: SpeedLimit,
        /// What the work asks for, rev/min.
        wanted_rev_min: (f64, f64),
        /// What the lathe does, rev/min.
        lathe_rev_min: (f64, f64),
    },
    /// Work that no order of operations gets to.
    NoOrder {
        /// The cut it is about; none for the outside.
        feature: Option<CutId>,
        /// Why.
        why: Unschedulable,
    },
    /// A mandrel that would bend or chatter.
    SlenderMandrel {
        /// An index into `Plan::mandrels`.
        mandrel: MandrelId,
        /// The end of the part it holds.
        end: End,
        /// How far it stands out.
        length: Length,
        /// Its least diameter there.
        dia: Length,
    },
    /// The work's shoulder bears on too narrow a ring of its mandrel.
    NarrowBearing {
        /// The end of the part it is about.
        end: End,
        /// The ring, a side; zero or less where the work is no fatter than its thread.
        ring: Length,
        /// What is wanted.
        wanted: Length,
    },
    /// A grip too short to hold.
    ShortGrip {
        /// The end of the part it is about.
        end: End,
        /// What is gripped.
        length: Length,
        /// What is wanted.
        wanted: Length,
    },
}

/// What falls short of the bottom of a hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shortfall {
    /// The drill's flutes, or the reach the bench gives it.
    Drill,
    /// The boring bar.
    Bar,
    /// The travel of the tailstock: it can be moved up and set anew.
    Travel,
}

/// Why no order works.
#[derive(Clone, Debug, PartialEq)]
pub enum Unschedulable {
    /// The die meets something fatter than the thread's root, from either end.
    DieBlocked {
        /// The station.
        at: Length,
        /// The diameter there.
        dia: Length,
        /// What would pass.
        root: Length,
    },
    /// A hole in the way of a wider cut is narrower than the tool.
    MouthTooNarrow {
        /// What must pass.
        wanted: Length,
        /// The narrowest before it.
        mouth: Length,
    },
    /// A boring tool would meet the bottom of nothing: it must go round a corner.
    NoWayIn,
    /// When all else is cut nothing is left to hold the part by.
    NothingToHold {
        /// The end that would have to be free.
        end: End,
    },
    /// Cuts that each need the other first.
    Circle,
    /// There are more holes and threads than an order is looked for among,
    /// [`MOST_CUTS`](crate::MOST_CUTS).
    TooMany {
        /// How many.
        count: usize,
    },
}

/// A hole that is drilled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrilledHole {
    /// Along the axis.
    Cut(CutId),
    /// From the side, or beside the axis.
    Indexed(Indexed),
}

/// What is cut with the spindle locked at places round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Indexed {
    /// A cut from the side.
    Side(SideId),
    /// Holes beside the axis.
    Beside(CircleId),
}
