//! The shape that is left of a part, as three profiles.

use crate::planes::CutPlanes;
use crate::{CircleId, CutId, End, NotRound, SideId, StationId};
use quillet_geometry::envelope::smallest;
use quillet_geometry::{Chain, Moments, Properties, Tag};

/// A part's shape along its axis, in millimetres from the first end.
///
/// The three differ over threads, and where the part is not round: what passes, touches or is drawn
/// has the greatest radius round the turn outside, what is left of a wall the least. Every piece
/// bears a tag; [`Profiles::origin`]
/// tells what made it.
#[derive(Clone, Debug)]
pub struct Profiles {
    /// As it is turned, for mass: a thread is the plain cylinder of its equal volume.
    pub metal: Solid,
    /// For walls: an outside thread is its root, an inside one its major diameter.
    pub root: Solid,
    /// For what must pass and where things touch: an outside thread is its major
    /// diameter, an inside one its minor.
    pub crest: Solid,
    /// What is cut of it besides.
    pub not_round: NotRound,
    /// What made each tag.
    pub origins: Vec<Origin>,
    /// Where its cuts begin and end.
    pub(crate) planes: CutPlanes,
}

/// A solid of revolution: what lies between its outside and its bores.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid {
    /// The outside, from end to end.
    pub outer: Chain,
    /// The bores, each an unbroken stretch; a blind one is closed by its bottom.
    pub inner: Vec<Chain>,
}

impl Solid {
    /// Volume, centroid and moments of inertia.
    pub fn properties(&self) -> Properties {
        Properties::between([&self.outer], &self.inner)
    }

    /// Its properties, where something is left and no bore comes out of the outside; where one does, what
    /// lies between the two is no solid, and has no volume to speak of.
    pub(crate) fn sound(&self) -> Option<Properties> {
        let through = |bore: &Chain| {
            let (from, to) = (bore.start().z, bore.end().z);
            let (fattest, narrowest) = (bore.fattest(from, to), self.outer.narrowest(from, to));
            if fattest
                .zip(narrowest)
                .is_some_and(|(bore, outer)| bore.0.r < outer.0.r)
            {
                return false;
            }
            let over = self.outer.between(from, to);
            let both: Vec<Chain> = over.into_iter().chain([bore.clone()]).collect();
            let bored = Properties::within(bore).volume_mm3;
            let kept = Properties::between(&smallest(&both), []).volume_mm3;
            bored - kept > LEAST_MM3
        };
        let properties = self.properties();
        let holds = properties.volume_mm3 > LEAST_MM3 && !self.inner.iter().any(through);
        holds.then_some(properties)
    }
}

/// Less is the rounding of sums, mm³.
const LEAST_MM3: f64 = 1e-6;

/// What made a piece of a profile.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Origin {
    /// The surface coming to this station.
    Outside(StationId),
    /// The broken corner of this station.
    StationEdge(StationId),
    /// A cut.
    Feature(CutId),
    /// A cut from the side.
    Side(SideId),
    /// Holes beside the axis, on a pitch circle.
    Beside(CircleId),
    /// The cone at the bottom of a drilled hole.
    DrillPoint(CutId),
    /// A broken corner cut as a feature, or a countersink.
    FeatureEdge(CutId),
    /// An end's flat face.
    Face(End),
    /// The blank as it came: nothing says the surface here.
    Stock,
    /// A tube as it came: its own outside or bore.
    Tube,
    /// The cord of an O-ring.
    Ring,
    /// Solid to the axis: no bore here.
    Axis,
}

impl Origin {
    /// A broken corner: it is no wall.
    pub fn is_edge(self) -> bool {
        matches!(self, Origin::StationEdge(_) | Origin::FeatureEdge(_))
    }

    /// The cut it comes from, where it is one.
    pub fn feature(self) -> Option<CutId> {
        match self {
            Origin::Feature(index) | Origin::DrillPoint(index) | Origin::FeatureEdge(index) => {
                Some(index)
            }
            _ => None,
        }
    }
}

impl Profiles {
    /// The outside as it is turned, before flats and all else that no lathe turns.
    pub fn turned(&self) -> &Chain {
        self.not_round.turned.as_ref().unwrap_or(&self.crest.outer)
    }

    /// Volume, centroid and moments of inertia of all that is left.
    pub fn properties(&self) -> Properties {
        self.less_cuts(self.metal.properties())
    }

    /// Of the metal as it is turned, what the cuts from its side leave.
    pub(crate) fn less_cuts(&self, turned: Properties) -> Properties {
        if self.not_round.is_empty() {
            return turned;
        }
        let outside = std::slice::from_ref(&self.metal.outer);
        let taken = self.not_round.taken(outside, &self.metal.inner, true);
        (Moments::from(turned) - taken).properties()
    }

    /// Whether some of the outside is the stock as it came: nothing says the surface there.
    pub fn leaves_stock(&self) -> bool {
        let mut outside = self.crest.outer.segments().iter();
        outside.any(|piece| {
            let long = piece.curve.end().z - piece.curve.start().z > 1e-6;
            long && self.origin(piece.tag) == Origin::Stock
        })
    }

    /// What made a piece.
    pub fn origin(&self, tag: Tag) -> Origin {
        self.origins
            .get(tag.0 as usize)
            .copied()
            .unwrap_or(Origin::Axis)
    }
}
