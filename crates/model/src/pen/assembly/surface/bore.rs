//! How the pieces of a bore move as a whole.

use super::spot::SurfaceSpot;
use super::{SAME_MM, Surface, ThreadEnd};
use crate::Origin;
use crate::pen::assembly::chain::Drift;
use quillet_geometry::{Chain, Curve, Point};

/// A straight piece of a bore: each of its ends, and how that moves along the axis and across it.
pub(crate) struct BorePiece([(Point, (Drift, Drift)); 2]);

impl BorePiece {
    /// The piece with its sizes off: `off` is by how much something moves, mm.
    pub(crate) fn redrawn(&self, off: &dyn Fn(&Drift) -> f64) -> Curve {
        let [start, end] = &self.0;
        let moved = |(at, (along, across)): &(Point, (Drift, Drift))| {
            *at + Point::new(off(along), off(across))
        };
        Curve::line(moved(start), moved(end))
    }
}

impl Surface<'_> {
    /// The straight pieces of a bore, by what made them, on which a place lies.
    pub(crate) fn bore_at(self, origin: Origin, at: Point) -> Vec<BorePiece> {
        let Some(profiles) = &self.part.profiles else {
            return Vec::new();
        };
        let solid = match self.threads {
            ThreadEnd::Crest => &profiles.crest,
            ThreadEnd::Root => &profiles.root,
        };
        let here = |curve: &Curve| {
            let straight = matches!(curve, Curve::Line(_));
            straight && curve.nearest(at).distance(at) < 2.0 * SAME_MM
        };
        let end = |place: Point| {
            let spot = SurfaceSpot::of(self, true, origin, place);
            (place, spot.moves())
        };
        let pieces = solid.inner.iter().flat_map(Chain::segments);
        pieces
            .filter(|it| profiles.origin(it.tag) == origin && here(&it.curve))
            .map(|it| BorePiece([end(it.curve.start()), end(it.curve.end())]))
            .collect()
    }
}
