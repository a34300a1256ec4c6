//! Where two pieces first meet when one slides along the axis.

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
    /// line; of two curves to 1e-9 mm, none missed.
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
            _ => between_curves(self, other, (low, high), &mut |r| offer(at(r))),
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

/// Offers radii near every one at which the travel of two curves turns from falling to rising.
///
/// Where neither changes the side to which it bends, both dz/dr only grow or only fall, so their
/// values at the ends of a stretch of radii bound them between; a stretch is halved until their
/// difference cannot be zero in it or cannot matter.
fn between_curves(one: &Curve, two: &Curve, (low, high): (f64, f64), offer: &mut dyn FnMut(f64)) {
    let inside = |curve: &Curve| -> Vec<f64> {
        let bends = curve.inflections();
        let radii = bends.as_slice().iter().map(|t| curve.point(*t).r);
        radii.filter(|r| low < *r && *r < high).collect()
    };
    let mut radii = [vec![low, high], inside(one), inside(two)].concat();
    radii.sort_by(f64::total_cmp);
    let node = |r: f64| Node {
        r,
        one: run(one, r),
        two: run(two, r),
    };
    let mut left = ENOUGH;
    for pair in radii.windows(2) {
        halve(&node, (node(pair[0]), node(pair[1])), &mut left, offer);
    }
}

/// Halvings after which curves that lie along each other, or absurd ones, are left as they are;
/// others need less than a hundred.
const ENOUGH: usize = 10_000;

/// A radius with dz/dr of both curves.
#[derive(Clone, Copy)]
struct Node {
    r: f64,
    one: f64,
    two: f64,
}

fn halve(
    node: &dyn Fn(f64) -> Node,
    (low, high): (Node, Node),
    left: &mut usize,
    offer: &mut dyn FnMut(f64),
) {
    const NO_MATTER_MM: f64 = 1e-9;
    let least = low.two.min(high.two) - low.one.max(high.one);
    let most = low.two.max(high.two) - low.one.min(high.one);
    let settled = least >= 0.0 || most <= 0.0 || (most - least) * (high.r - low.r) < NO_MATTER_MM;
    let middle = (low.r + high.r) / 2.0;
    offer(middle);
    if !settled && *left > 0 && low.r < middle && middle < high.r {
        *left -= 1;
        let middle = node(middle);
        halve(node, (low, middle), left, offer);
        halve(node, (middle, high), left, offer);
    }
}

/// dz/dr at a radius; rounding may not turn its sign where the curve runs level.
fn run(curve: &Curve, r: f64) -> f64 {
    let way = curve.tangent(curve.param_at_r(r));
    let steep = way.z / way.r.abs();
    if curve.end().r < curve.start().r {
        -steep
    } else {
        steep
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Arc, Cubic};
    use proptest::prelude::*;

    fn curves() -> impl Strategy<Value = Curve> {
        let place = || (0.0..10.0_f64, 0.0..8.0_f64);
        (0..5, place(), place(), -2.0..2.0_f64, -2.0..2.0_f64).prop_filter_map(
            "an arc that can be made",
            |(kind, a, b, one, two)| {
                let (start, end) = (Point::new(a.0, a.1), Point::new(a.0 + b.0 + 0.1, b.1));
                match kind {
                    0 => Some(Curve::line(start, end)),
                    1 => Arc::circular(start, end, 6.0 + two, one > 0.0).map(Curve::Arc),
                    2 => Arc::dome(start, end).map(Curve::Arc),
                    3 => Some(Curve::line(start, Point::new(start.z, end.r))),
                    _ => Cubic::with_slopes(start, end, one, two).map(Curve::Cubic),
                }
            },
        )
    }

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
                        prop_assert!(travel >= found.travel_mm - 1e-9, "{travel} before {found:?}");
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
