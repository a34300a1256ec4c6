//! What is left of a part's metal between two of its places, at worst.

use super::chain::WorstCase;
use super::surface::{Surface, SurfaceSpot, ThreadEnd};
use super::tolerance::link;
use crate::{Hand, Origin, Part, PartId};
use quillet_geometry::Point;

impl Part {
    /// The least distance between two places of its surface with every size at its worst, as a hand
    /// keeps them, threads at their roots: an outer place and the inner one nearest to it, each by
    /// what made it, and how far they are apart as drawn, mm; that is zero or less where the inner
    /// one stands out.
    ///
    /// A sum of first order: each size by how far it moves the two places along the line between
    /// them.
    pub fn worst_between(
        &self,
        hand: &Hand,
        outer: (Origin, Point),
        inner: (Origin, Point),
        nominal_mm: f64,
    ) -> WorstCase {
        let surface = Surface {
            part: self,
            index: PartId::ALONE,
            threads: ThreadEnd::Root,
        };
        let one = SurfaceSpot::of(surface, false, outer.0, outer.1);
        let other = SurfaceSpot::of(surface, true, inner.0, inner.1);
        let apart = outer.1.distance(inner.1);
        let sum = if nominal_mm > TOUCHING && apart > TOUCHING {
            let way = Point::new(
                (outer.1.z - inner.1.z) / apart,
                (outer.1.r - inner.1.r) / apart,
            );
            one.along(way).plus(-1.0, &other.along(way))
        } else {
            // Where they touch there is no way to look; a wall looks across, at the place where one
            // of them ends.
            let plane = one.ends().or_else(|| other.ends()).unwrap_or_default();
            one.radius_at(&plane).plus(-1.0, &other.radius_at(&plane))
        };
        let chain = sum
            .iter()
            .map(|(size, factor)| link(self, hand, size, factor));
        WorstCase::of(nominal_mm, chain.collect(), |_| self)
    }
}

/// Nearer than this, mm, two places touch.
const TOUCHING: f64 = 1e-9;
