//! A cut made from one end of a part.

use crate::{End, ThreadDef};
use quillet_geometry::{Angle, Edge, Length};
use quillet_syntax::{Span, ast};
use std::sync::Arc;

/// A cut, resolved: where it lies along the part and what it leaves.
#[derive(Clone, Debug)]
pub struct Feature {
    /// The statement.
    pub span: Span,
    /// The block `from END { … }` it stands in.
    pub block: Span,
    /// The end it is cut from.
    pub end: End,
    /// Where it starts, inward from that end's face.
    pub from: Length,
    /// Where it stops (full diameter, full form), inward from that end's face.
    pub to: Length,
    /// Goes right to the other end.
    pub through: bool,
    /// What is cut.
    pub cut: Cut,
    /// Of a thread, where it begins: clockwise of the part's mark, looking at the end it is cut
    /// from.
    pub clock: Option<Angle>,
    /// Where its diameter or thread is written.
    pub size_span: Span,
    /// Where its depth is written.
    pub reach_span: Span,
    /// Its face.
    pub face: Option<ast::Name>,
}

/// What is cut; diameters are finished diameters.
#[derive(Clone, Debug)]
pub enum Cut {
    /// A plain outside diameter for a joint or a die.
    Tenon {
        /// Diameter.
        dia: Length,
        /// It was left out and worked out from this thread's class.
        assumed_for: Option<Arc<ThreadDef>>,
    },
    /// A drilled hole with its cone on top of the depth.
    Drill {
        /// Diameter.
        dia: Length,
        /// The tool as written.
        tool: DrillName,
        /// Included angle of the point.
        point: Angle,
        /// It was not written but follows from this inside thread.
        assumed_for: Option<Arc<ThreadDef>>,
    },
    /// A flat-bottomed bore.
    Bore {
        /// Diameter.
        dia: Length,
        /// The tool as written.
        tool: DrillName,
    },
    /// A reamed hole.
    Ream {
        /// Diameter.
        dia: Length,
        /// The tool as written.
        tool: DrillName,
    },
    /// A thread, full form over its reach.
    Thread {
        /// The thread.
        thread: Arc<ThreadDef>,
        /// Inside or outside.
        side: ast::Side,
    },
    /// An outside relief.
    Relief {
        /// Diameter.
        dia: Length,
    },
    /// An outside groove.
    Groove {
        /// Diameter at its floor.
        dia: Length,
        /// The ring it takes.
        takes: Option<ast::Name>,
    },
    /// An inside recess.
    Recess {
        /// Diameter at its floor.
        dia: Length,
        /// The ring it takes.
        takes: Option<ast::Name>,
    },
    /// An inside taper.
    Taper {
        /// Diameter at its start.
        from_dia: Length,
        /// Diameter at its end.
        to_dia: Length,
    },
    /// A conical mouth of a bore.
    Countersink {
        /// Diameter at the face.
        dia: Length,
        /// Included angle.
        angle: Angle,
    },
    /// The outer corner of the end, broken.
    Edge(Edge),
}

/// How a drill was named.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DrillName {
    /// By its diameter.
    Diameter,
    /// A number drill, `#7`.
    Number(u32),
    /// A letter drill, `letter F`.
    Letter(char),
}

/// No countersink is sold sharper for breaking mouths: the centre drill's 60° (ISO 866, from memory).
const SHARPEST_SINK: Angle = Angle::from_nanodeg(60_000_000_000);

impl Feature {
    /// Whether it is a countersink more pointed than any that is sold.
    pub fn is_sharp(&self) -> bool {
        matches!(self.cut, Cut::Countersink { angle, .. } if angle < SHARPEST_SINK)
    }

    /// Whether it is cut inside.
    pub fn is_inside(&self) -> bool {
        match &self.cut {
            Cut::Drill { .. }
            | Cut::Bore { .. }
            | Cut::Ream { .. }
            | Cut::Recess { .. }
            | Cut::Taper { .. }
            | Cut::Countersink { .. } => true,
            Cut::Thread { side, .. } => *side == ast::Side::Inside,
            Cut::Tenon { .. } | Cut::Relief { .. } | Cut::Groove { .. } | Cut::Edge(_) => false,
        }
    }

    /// Whether it only breaks a corner: the outer one of an end, or the mouth of a bore.
    pub(crate) fn is_edge(&self) -> bool {
        matches!(self.cut, Cut::Edge(_) | Cut::Countersink { .. })
    }

    /// Its thread and side, where it is one.
    pub fn thread(&self) -> Option<(&Arc<ThreadDef>, ast::Side)> {
        match &self.cut {
            Cut::Thread { thread, side } => Some((thread, *side)),
            _ => None,
        }
    }

    /// Its finished diameter, where it has a single one (a thread's is its major).
    pub fn dia(&self) -> Option<Length> {
        match &self.cut {
            Cut::Tenon { dia, .. }
            | Cut::Drill { dia, .. }
            | Cut::Bore { dia, .. }
            | Cut::Ream { dia, .. }
            | Cut::Relief { dia }
            | Cut::Groove { dia, .. }
            | Cut::Recess { dia, .. }
            | Cut::Countersink { dia, .. } => Some(*dia),
            Cut::Thread { thread, .. } => Some(thread.thread.major()),
            Cut::Taper { .. } | Cut::Edge(_) => None,
        }
    }

    /// The stations it lies between along a part of this length, lower first.
    pub fn stations(&self, part_length: Length) -> (Length, Length) {
        match self.end {
            End::First => (self.from, self.to),
            End::Second => (part_length - self.to, part_length - self.from),
        }
    }
}
