//! What an operation does to the work, as data: enough for a person or a simulated lathe to
//! carry it out.

mod inside;
mod trial;

use crate::{MandrelId, RouteId};
pub use inside::{InsideCut, InsideShape};
use quillet_geometry::{Edge, Length};
use quillet_model::{CircleId, End, PieceId, SideId, ThreadDef};
use std::sync::Arc;
pub use trial::{Bearing, Home, TrialFit};

/// What is done.
///
/// A station is measured along the part from its first end; stock beyond an end lies below
/// zero or above the part's length. A distance is measured inward from an end's face.
#[derive(Clone, Debug)]
pub enum Work {
    /// Saw a piece of the blank off its stock.
    Saw {
        /// Which piece.
        piece: PieceId,
        /// How long.
        length: Length,
    },
    /// Face a piece square where another is glued on.
    FacePiece(PieceFace),
    /// Bore the hole that takes the next piece's spigot, through a thin piece into those below.
    Socket {
        /// The piece it is bored from.
        piece: PieceId,
        /// Diameter.
        dia: Length,
        /// Depth from that piece's face.
        depth: Length,
        /// It is the drilled hole that leads the flat tool.
        leads: bool,
    },
    /// Turn the spigot of a glued piece.
    Spigot {
        /// The piece.
        piece: PieceId,
        /// Diameter.
        dia: Length,
        /// Length.
        length: Length,
    },
    /// Glue a piece to those before it.
    GlueUp {
        /// The piece.
        piece: PieceId,
        /// The gap for glue, on diameter.
        gap: Option<Length>,
        /// Too short to be held: its face is rubbed flat on a plate instead of turned.
        rubbed: bool,
    },
    /// Join another part in before the outside is turned.
    JoinIn(JoinedIn),
    /// Turn the blank round between centres.
    Round {
        /// To this diameter.
        dia: Length,
    },
    /// Take hold of the work anew; the operation's [`Workholding`](crate::Workholding) says how.
    TakeHold,
    /// Face an end.
    Face {
        /// The end.
        end: End,
        /// The station of the face that is left.
        to: Length,
    },
    /// Centre an end with a centre drill.
    Centre {
        /// The end.
        end: End,
        /// It is for the tail centre, in a nub that comes off last.
        in_nub: bool,
    },
    /// Cut inside.
    Inside(InsideCut),
    /// Cut a cylinder outside.
    Turn(TurnCut),
    /// Break the outer corner of an end.
    BreakCorner {
        /// The end.
        end: End,
        /// How.
        edge: Edge,
    },
    /// Cut a thread.
    Thread(ThreadCut),
    /// Screw or push a plug into the bore so that a thin tenon cannot be crushed.
    Support {
        /// Which one.
        plug: MandrelId,
    },
    /// Try the mate by hand.
    Try(TrialFit),
    /// Turn the outside along its stations.
    Outside(OutsidePass),
    /// Part the work off its rod.
    PartOff {
        /// The end that comes free.
        end: End,
        /// The station of the cut's near face.
        at: Length,
        /// The width of the cut.
        width: Length,
        /// The end is shaped down to its pole as it is parted.
        shaping: bool,
    },
    /// Cut from the side, the spindle locked at each of so many places round.
    Side {
        /// Which cut.
        cut: SideId,
        /// How many places, evenly from the cut's own clock.
        places: u32,
    },
    /// Drill beside the axis, the spindle locked at each of so many places round.
    Beside {
        /// Which holes.
        holes: CircleId,
        /// The end they are cut from.
        end: End,
        /// How many places, evenly from the holes' own clock.
        places: u32,
    },
    /// Take the centre nub off and finish the end under it.
    RemoveNub {
        /// The closed end.
        end: End,
        /// Left on diameter for sanding; nought where the rest is sanded already, and the end with it now.
        over: Length,
    },
    /// Sand through the grits and polish.
    Polish {
        /// What the outside has over its size before, on diameter.
        over: Length,
        /// Before it is glued: metal dust stains resin.
        before_gluing: bool,
        /// What is left standing at an end: joined with its mate, a part still has its nub.
        core: Option<Core>,
    },
}

/// What is joined in before the outside is turned.
#[derive(Clone, Debug, PartialEq)]
pub struct JoinedIn {
    /// The part that goes in, by name.
    pub part: Arc<str>,
    /// The end of this part by which it goes in.
    pub end: End,
    /// The gap for glue, on diameter.
    pub gap: Option<Length>,
    /// Pressed, not glued.
    pub pressed: bool,
    /// What shows that it is home.
    pub home: Option<Home>,
    /// What it is joined to, where the two are turned as one: a part of the work.
    pub at: Option<JoinedAt>,
}

/// What a part of a work is joined to.
#[derive(Clone, Debug, PartialEq)]
pub struct JoinedAt {
    /// The part, by name.
    pub part: Arc<str>,
    /// Its end, by name.
    pub end: Arc<str>,
    /// It goes over that end, not into it.
    pub over: bool,
}

/// A face on which pieces are glued.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PieceFace {
    /// The piece.
    pub piece: PieceId,
    /// Which end of it.
    pub end: End,
    /// The station it is faced to, where its thickness comes of it; else until clean.
    pub to: Option<Length>,
}

/// A cylinder turned outside, from an end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnCut {
    /// The end.
    pub end: End,
    /// What it is for.
    pub kind: TurnKind,
    /// Finished diameter.
    pub dia: Length,
    /// Where it starts, inward from the face.
    pub from: Length,
    /// Where it stops.
    pub to: Length,
}

/// What a turned cylinder is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum TurnKind {
    Tenon,
    Relief,
    Groove,
    /// The land a thread is cut on, where no tenon is written.
    ThreadLand,
}

/// A thread, from an end.
#[derive(Clone, Debug)]
pub struct ThreadCut {
    /// The end the tool comes from.
    pub end: End,
    /// Inside or outside.
    pub inside: bool,
    /// The thread.
    pub thread: Arc<ThreadDef>,
    /// Where full form starts, inward from the face.
    pub from: Length,
    /// Where it stops.
    pub to: Length,
    /// How.
    pub method: Threading,
}

/// How a thread is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Threading {
    /// By a tap in the tailstock holder, turned by hand, power off.
    Tap,
    /// By a die in the tailstock holder, turned by hand, power off.
    Die,
    /// By a single point, the lathe geared to the lead.
    SinglePoint,
}

/// A pass along the outside.
#[derive(Clone, Debug, PartialEq)]
pub struct OutsidePass {
    /// How fine.
    pub pass: Pass,
    /// The stretches of the outside it turns, stations.
    pub spans: Vec<(Length, Length)>,
    /// Left over the finished size, on diameter.
    pub over: Length,
    /// What it leaves standing at an end that is closed.
    pub core: Option<Core>,
    /// The route of the part it is blended with, for that pass.
    pub with: Option<RouteId>,
}

/// What an outside pass leaves standing at an end, to be finished when that comes free.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Core {
    /// The end.
    pub end: End,
    /// The pass stops at this diameter.
    pub dia: Length,
    /// The nub beyond the end's face, turned as well; none where a stub is gripped there.
    pub nub: Option<Nub>,
}

/// How fine a pass is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pass {
    /// Stepped down with a parting tool and calipers, then joined.
    Rough,
    /// To size but for sanding.
    Finish,
    /// Two parts run into each other, joined.
    Blend,
}

/// A centre nub: it takes the tail centre, or the collet where two parts are turned joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Nub {
    /// The closed end it stands beyond.
    pub end: End,
    /// Its diameter.
    pub dia: Length,
    /// Its length.
    pub length: Length,
    /// It is gripped in that collet while the part is turned joined with its mate.
    pub gripped: bool,
}
