//! What is left of a part's metal between two of its places, at worst.

use super::assembly::chain::{Drift, Link, WorstCase};
use super::assembly::surface::{Surface, SurfaceSpot, ThreadEnd};
use super::assembly::tolerance::link;
use super::follow;
use crate::{Hand, Origin, Part, PartId, Size};
use quillet_geometry::{Chain, Curve, Point};
use std::collections::BTreeMap;

impl Part {
    /// The least distance between two places of its surface with every size at its worst, as a hand
    /// keeps them, threads at their roots: an outer place and the inner one nearest to it, each by
    /// what made it, and how far they are apart as drawn, mm; that is zero or less where the inner
    /// one stands out.
    ///
    /// Each size takes by how far it moves the two places along the line between them. Where the
    /// outside or the bore slopes or curves, the part is cut anew with all of them at their worst.
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
            let anew = cut_anew(self, (outer, inner), other, &worst);
            worst.least_mm = anew.min(worst.least_mm);
        }
        worst
    }
}

/// The least distance with the part cut anew, every size at one end of its range; endless where
/// something else of the two surfaces lies nearer as drawn than the places that are told, and where
/// both lie level, of which the sum is exact.
fn cut_anew(
    part: &Part,
    (outer, inner): ((Origin, Point), (Origin, Point)),
    spot: SurfaceSpot,
    worst: &WorstCase,
) -> f64 {
    let (over, under) = (Lying::of(part, false, outer), Lying::of(part, true, inner));
    if over.is_level(part) && under.is_level(part) {
        return f64::INFINITY;
    }
    let order = worst.chain.iter().enumerate();
    let order: BTreeMap<Size, usize> = order.map(|(nth, it)| (it.size, nth)).collect();
    let follows = follow::of(PartId::ALONE, part).numbered(&order);
    let from_bore = |made: &Part, _: &[f64]| {
        let outside = over.pieces(made);
        let bore = under.pieces(made);
        least(&outside, |it| {
            least(&bore, |other| it.approach(other).distance_mm)
        })
    };
    let (along, across) = spot.moves();
    let from_place = |made: &Part, off_mm: &[f64]| {
        let off = |drift: &Drift| -> f64 {
            let known = drift
                .iter()
                .filter_map(|(size, by)| Some((order.get(&size)?, by)));
            known.map(|(nth, by)| by * off_mm[*nth]).sum()
        };
        let place = inner.1 + Point::new(off(&along), off(&across));
        least(&over.pieces(made), |it| it.nearest(place).distance(place))
    };
    let made = |of: &dyn Fn(&Part, &[f64]) -> f64| {
        least_at_ends(&worst.chain, |off_mm| match follows.made(part, off_mm) {
            Some(made) if made.shaped => of(&made, off_mm),
            _ => f64::INFINITY,
        })
    };
    let (apart, drawn) = (outer.1.distance(inner.1) - SAME_MM, vec![0.0; order.len()]);
    if from_bore(part, &drawn) > apart {
        made(&from_bore)
    } else if from_place(part, &drawn) > apart {
        made(&from_place)
    } else {
        f64::INFINITY
    }
}

/// The stretches of a surface that lie as it does at a place: along the axis, square to it, or, at a
/// corner, both.
struct Lying {
    inside: bool,
    origin: Origin,
    along: bool,
    square: bool,
}

impl Lying {
    fn of(part: &Part, inside: bool, (origin, at): (Origin, Point)) -> Lying {
        let all = Lying {
            inside,
            origin,
            along: true,
            square: true,
        };
        let here = |it: &&Curve| it.nearest(at).distance(at) < 2.0 * SAME_MM;
        let pieces = all.pieces(part);
        let near: Vec<bool> = pieces.iter().filter(here).map(Curve::is_vertical).collect();
        Lying {
            along: near.contains(&false),
            square: near.contains(&true),
            ..all
        }
    }

    /// Those of a part, threads at their roots.
    fn pieces(&self, part: &Part) -> Vec<Curve> {
        let Some(profiles) = &part.profiles else {
            return Vec::new();
        };
        let chains = match self.inside {
            true => profiles.root.inner.as_slice(),
            false => std::slice::from_ref(&profiles.root.outer),
        };
        let pieces = chains.iter().flat_map(Chain::segments);
        let own = pieces.filter(|it| profiles.origin(it.tag) == self.origin);
        let lying = |it: &Curve| match it.is_vertical() {
            true => self.square,
            false => self.along,
        };
        own.map(|it| it.curve).filter(lying).collect()
    }

    /// Whether each of them is a cylinder, or square to the axis.
    fn is_level(&self, part: &Part) -> bool {
        let level = |it: &Curve| match it {
            Curve::Line(line) => line.start.r == line.end.r || it.is_vertical(),
            _ => false,
        };
        self.pieces(part).iter().all(level)
    }
}

/// The least of something with every size of a chain at one end of its range: at first at that which
/// takes by the chain, then, one after the other, at the other where that leaves less.
fn least_at_ends(chain: &[Link], of: impl Fn(&[f64]) -> f64) -> f64 {
    let taking = |it: &Link| {
        if it.factor > 0.0 {
            it.range_mm.0
        } else {
            it.range_mm.1
        }
    };
    let mut ends: Vec<f64> = chain.iter().map(taking).collect();
    let mut least = of(&ends);
    for (at, link) in chain.iter().enumerate() {
        let mut other = ends.clone();
        other[at] = link.range_mm.0 + link.range_mm.1 - ends[at];
        let found = of(&other);
        if found < least {
            (least, ends) = (found, other);
        }
    }
    least
}

fn least(all: &[Curve], of: impl Fn(&Curve) -> f64) -> f64 {
    all.iter().map(of).fold(f64::INFINITY, f64::min)
}

/// Nearer than this, mm, two places touch.
const TOUCHING: f64 = 1e-9;
/// Distances that agree within this, mm, are one: walls are kept to the nanometre.
const SAME_MM: f64 = 1e-6;
