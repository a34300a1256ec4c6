//! Where two pieces first meet when one slides along the axis.

use std::collections::VecDeque;

use crate::chain::SAME;
use crate::{Curve, Point};

/// The first meeting of two pieces that approach each other along the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting {
    /// How far the first slides towards larger `z` until they meet, mm; negative where it has
    /// already passed that place.
    pub travel_mm: f64,
    /// The place on the first, before it slides.
    pub one: Point,
    /// The place on the second.
    pub other: Point,
    /// The radii over which they meet at once, mm wide: of two faces the ring they share, else 0.
    pub width_mm: f64,
}

impl Curve {
    /// Where this piece, sliding towards larger `z` by itself, first meets `other`: the least of
    /// `other.z(r) − self.z(r)` over the radii that both have.
    ///
    /// Both must only grow or only fall in radius ([`Curve::monotone_pieces`]). None where the
    /// radii they share have no width: cylinders slide past all they do not face. Exact against a
    /// line; of two curves to 1e-7 mm, none missed.
    pub fn meeting(&self, other: &Curve) -> Option<Meeting> {
        let (low, high) = shared_radii(self, other)?;
        let at = |r: f64| (self.at_radius(r), other.at_radius(r));
        let travel = |(one, two): (Point, Point)| two.z - one.z;
        let mut best = at(low);
        let mut offer = |found: (Point, Point)| {
            if travel(found) < travel(best) {
                best = found;
            }
        };
        offer(at(high));
        match (self, other) {
            (Curve::Line(_), Curve::Line(_)) => {}
            (Curve::Line(line), curve) | (curve, Curve::Line(line)) => {
                let way = line.end - line.start;
                for t in curve.parallel_to(way).as_slice() {
                    offer(at(curve.point(*t).r.clamp(low, high)));
                }
            }
            _ => offer(at(MeetingSearch::least(self, other, (low, high)))),
        }
        let (one, two) = best;
        let faces = self.is_vertical() && other.is_vertical();
        Some(Meeting {
            travel_mm: travel(best),
            one,
            other: two,
            width_mm: if faces { high - low } else { 0.0 },
        })
    }

    /// The place at a radius of a piece that only grows or only falls.
    fn at_radius(&self, r: f64) -> Point {
        Point::new(self.point(self.param_at_r(r)).z, r)
    }
}

fn shared_radii(one: &Curve, other: &Curve) -> Option<(f64, f64)> {
    let range = |curve: &Curve| {
        let (start, end) = (curve.start().r, curve.end().r);
        (start.min(end), start.max(end))
    };
    let (a, b) = (range(one), range(other));
    let (low, high) = (a.0.max(b.0), a.1.min(b.1));
    (high - low > SAME).then_some((low, high))
}

/// The search for the radius at which the travel of two curves is least.
///
/// Where neither changes the side to which it bends, both dz/dr only grow or only fall, so their
/// values at the ends of a stretch of radii bound them between; a stretch is halved until their
/// difference cannot be zero in it or cannot matter.
struct MeetingSearch<'a> {
    one: &'a Curve,
    two: &'a Curve,
    /// The least travel found, and the radii beside it.
    least: Node,
    beside: (f64, f64),
    /// Stretches that wait to be halved, the longest first.
    waiting: VecDeque<(Node, Node)>,
}

/// A radius with the travel, z and dz/dr of both curves.
#[derive(Clone, Copy)]
struct Node {
    r: f64,
    z: (f64, f64),
    run: (f64, f64),
}

impl Node {
    fn travel(&self) -> f64 {
        self.z.1 - self.z.0
    }

    fn rises(&self) -> bool {
        self.run.1 - self.run.0 > 0.0
    }
}

impl<'a> MeetingSearch<'a> {
    fn least(one: &'a Curve, two: &'a Curve, (low, high): (f64, f64)) -> f64 {
        let inside = |curve: &Curve| -> Vec<f64> {
            let bends = curve.inflections();
            let radii = bends.as_slice().iter().map(|t| curve.point(*t).r);
            radii.filter(|r| low < *r && *r < high).collect()
        };
        let mut radii = [vec![low, high], inside(one), inside(two)].concat();
        radii.sort_by(f64::total_cmp);
        let first = node(one, two, low);
        let mut search = MeetingSearch {
            one,
            two,
            least: first,
            beside: (low, low),
            waiting: VecDeque::new(),
        };
        for pair in radii.windows(2) {
            let ends = (search.node(pair[0]), search.node(pair[1]));
            search.offer(ends.0, (pair[0], pair[1]));
            search.offer(ends.1, (pair[0], pair[1]));
            search.waiting.push_back(ends);
        }
        // Curves that lie along each other, or absurd ones, would go on; others need a hundred.
        for _ in 0..500 {
            let Some((low, high)) = search.waiting.pop_front() else {
                break;
            };
            search.halve(low, high);
        }
        search.polished()
    }

    fn node(&self, r: f64) -> Node {
        node(self.one, self.two, r)
    }

    fn offer(&mut self, node: Node, beside: (f64, f64)) {
        if node.travel() < self.least.travel() {
            (self.least, self.beside) = (node, beside);
        }
    }

    fn halve(&mut self, low: Node, high: Node) {
        /// An eighth of it is all that can be missed, mm.
        const NO_MATTER_MM: f64 = 4e-7;
        let middle = (low.r + high.r) / 2.0;
        let nearest = low.z.1.min(high.z.1) - low.z.0.max(high.z.0);
        let least = low.run.1.min(high.run.1) - low.run.0.max(high.run.0);
        let most = low.run.1.max(high.run.1) - low.run.0.min(high.run.0);
        let settled = nearest >= self.least.travel()
            || least >= 0.0
            || most <= 0.0
            || (most - least) * (high.r - low.r) < NO_MATTER_MM;
        if !settled && low.r < middle && middle < high.r {
            let middle = self.node(middle);
            self.offer(middle, (low.r, high.r));
            self.waiting.extend([(low, middle), (middle, high)]);
        }
    }

    /// The least, moved to where the travel turns from falling to rising.
    fn polished(&self) -> f64 {
        let (mut low, mut high) = self.beside;
        // The travel changes by the square of what is left of the radii.
        for _ in 0..30 {
            let middle = (low + high) / 2.0;
            if self.node(middle).rises() {
                high = middle
            } else {
                low = middle
            }
        }
        let found = self.node((low + high) / 2.0);
        if found.travel() < self.least.travel() {
            found.r
        } else {
            self.least.r
        }
    }
}

fn node(one: &Curve, two: &Curve, r: f64) -> Node {
    let at = |curve: &Curve| {
        let t = curve.param_at_r(r);
        let way = curve.tangent(t);
        // Rounding may not turn the sign where the curve runs level.
        let steep = way.z / way.r.abs();
        let falls = curve.end().r < curve.start().r;
        (curve.point(t).z, if falls { -steep } else { steep })
    };
    let (a, b) = (at(one), at(two));
    Node {
        r,
        z: (a.0, b.0),
        run: (a.1, b.1),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_curve::curves;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_radius_meets_sooner(one in curves(), two in curves()) {
            for a in one.monotone_pieces() {
                for b in two.monotone_pieces() {
                    let Some(found) = a.meeting(&b) else {
                        prop_assert!(shared_radii(&a, &b).is_none());
                        continue;
                    };
                    prop_assert!((found.other.z - found.one.z - found.travel_mm).abs() < 1e-12);
                    let (low, high) = shared_radii(&a, &b).unwrap();
                    for step in 0..=400 {
                        let r = low + (high - low) * f64::from(step) / 400.0;
                        let travel = b.at_radius(r).z - a.at_radius(r).z;
                        prop_assert!(travel >= found.travel_mm - 1e-7, "{travel} before {found:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn faces_meet_over_the_ring_they_share() {
        let face =
            |z: f64, low: f64, high: f64| Curve::line(Point::new(z, low), Point::new(z, high));
        let found = face(2.0, 0.0, 5.0).meeting(&face(9.0, 4.0, 7.0)).unwrap();
        assert_eq!((found.travel_mm, found.width_mm), (7.0, 1.0));
        // A hole as wide as the rod lets it pass.
        assert_eq!(face(2.0, 0.0, 4.0).meeting(&face(9.0, 4.0, 7.0)), None);
        let cylinder = Curve::line(Point::new(0.0, 5.0), Point::new(9.0, 5.0));
        assert_eq!(cylinder.meeting(&face(20.0, 0.0, 7.0)), None);
    }
}
