//! What is left of a part's metal between two of its places, at worst.

use super::chain::{Drift, Link, Size, WorstCase};
use super::surface::{Surface, SurfaceSpot, ThreadEnd};
use super::tolerance::link;
use crate::{Hand, Origin, Part, PartId};
use quillet_geometry::{Curve, Point};

impl Part {
    /// The least distance between two places of its surface with every size at its worst, as a hand
    /// keeps them, threads at their roots: an outer place and the inner one nearest to it, each by
    /// what made it, and how far they are apart as drawn, mm; that is zero or less where the inner
    /// one stands out.
    ///
    /// Each size takes by how far it moves the two places along the line between them. Where the
    /// outside slopes or curves, it is drawn anew with all of them at their worst.
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
        let mut worst = WorstCase::of(nominal_mm, chain.collect(), |_| self);
        if worst.least_mm > TOUCHING && matches!(outer.0, Origin::Outside(_)) {
            let redrawn = drawn_anew(surface, (outer, inner), other, &worst);
            worst.least_mm = redrawn.min(worst.least_mm);
        }
        worst
    }
}

/// The least distance with the outside and the bore each drawn anew, every size at one end of its
/// range; endless where something else of them lies nearer as drawn than the places that are told.
fn drawn_anew(
    surface: Surface,
    (outer, inner): ((Origin, Point), (Origin, Point)),
    spot: SurfaceSpot,
    worst: &WorstCase,
) -> f64 {
    let outside = surface.pieces_at(false, outer.0, outer.1);
    let bore = surface.pieces_at(true, inner.0, inner.1);
    let nearest = |off: &dyn Fn(&Drift) -> f64, to: &dyn Fn(&Curve) -> f64| {
        let curves = outside.iter().flat_map(|it| it.drawn(off));
        least(curves, |it| to(&it))
    };
    // What lies over a slope moves along it, so the bore is drawn anew too; else the place alone is.
    let from_bore = |off: &dyn Fn(&Drift) -> f64| {
        let drawn: Vec<Curve> = bore.iter().flat_map(|it| it.drawn(off)).collect();
        nearest(off, &|it| {
            least(drawn.iter(), |other| it.approach(other).distance_mm)
        })
    };
    let (along, across) = spot.moves();
    let from_place = |off: &dyn Fn(&Drift) -> f64| {
        let place = inner.1 + Point::new(off(&along), off(&across));
        nearest(off, &|it| it.nearest(place).distance(place))
    };
    let apart = outer.1.distance(inner.1) - SAME_MM;
    if from_bore(&|_| 0.0) > apart {
        least_at_ends(&worst.chain, from_bore)
    } else if from_place(&|_| 0.0) > apart {
        least_at_ends(&worst.chain, from_place)
    } else {
        f64::INFINITY
    }
}

/// The least of something with every size of a chain at one end of its range: at first at that which
/// takes by the chain, then, one after the other, at the other where that leaves less.
fn least_at_ends(chain: &[Link], of: impl Fn(&dyn Fn(&Drift) -> f64) -> f64) -> f64 {
    let with = |ends: &[f64]| {
        of(&|drift: &Drift| {
            let end = |size: Size| {
                chain
                    .iter()
                    .position(|it| it.size == size)
                    .map(|at| ends[at])
            };
            let moved = |(size, factor): (Size, f64)| factor * end(size).unwrap_or_default();
            drift.iter().map(moved).sum()
        })
    };
    let taking = |it: &Link| {
        if it.factor > 0.0 {
            it.range_mm.0
        } else {
            it.range_mm.1
        }
    };
    let mut ends: Vec<f64> = chain.iter().map(taking).collect();
    let mut least = with(&ends);
    for (at, link) in chain.iter().enumerate() {
        let mut other = ends.clone();
        other[at] = link.range_mm.0 + link.range_mm.1 - ends[at];
        let found = with(&other);
        if found < least {
            (least, ends) = (found, other);
        }
    }
    least
}

fn least<T>(all: impl Iterator<Item = T>, of: impl Fn(T) -> f64) -> f64 {
    all.map(of).fold(f64::INFINITY, f64::min)
}

/// Nearer than this, mm, two places touch.
const TOUCHING: f64 = 1e-9;
/// Distances that agree within this, mm, are one: walls are kept to the nanometre.
const SAME_MM: f64 = 1e-6;
