//! Least true distances: a place to a curve, a curve to a curve.

use crate::crossing::where_it_crosses;
use crate::homogeneous::Homogeneous;
use crate::{Bounds, Chain, Curve, Line, Point};

/// Where two things come nearest to each other in the meridian plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Approach {
    /// The true distance, mm.
    pub distance_mm: f64,
    /// The place on the first.
    pub one: Point,
    /// The place on the second.
    pub other: Point,
}

impl Approach {
    fn between(one: Point, other: Point) -> Approach {
        Approach {
            distance_mm: one.distance(other),
            one,
            other,
        }
    }

    fn nearer(self, other: Approach) -> Approach {
        if other.distance_mm < self.distance_mm {
            other
        } else {
            self
        }
    }

    fn swapped(self) -> Approach {
        Approach {
            one: self.other,
            other: self.one,
            ..self
        }
    }
}

impl Curve {
    /// The place on the curve that is nearest to another place.
    ///
    /// The feet of all perpendiculars are roots of a polynomial of degree five or less, none of
    /// which is missed.
    pub fn nearest(&self, to: Point) -> Point {
        if let Curve::Line(line) = self {
            return on_line(line, to);
        }
        let along = self.homogeneous();
        let z = along.z.plus(-to.z, &along.w);
        let r = along.r.plus(-to.r, &along.w);
        // The direction of travel times w², of which the terms in the place itself fall out.
        let way = |part: &crate::bernstein::Poly| self.weighed(part, &along.w);
        let square = z.times(&way(&z)).plus(1.0, &r.times(&way(&r)));
        let feet = square.roots();
        let places = feet
            .as_slice()
            .iter()
            .map(|t| self.point(*t))
            .chain([self.end()]);
        places.fold(self.start(), |best, place| {
            if place.distance(to) < best.distance(to) {
                place
            } else {
                best
            }
        })
    }

    /// Whether no place of the curve is nearer than this to another place, as far as its control polygon
    /// tells: all of that lies beyond a line square to the way from the place to the chord.
    fn clears(&self, from: Point, by_mm: f64) -> bool {
        let chord = Line {
            start: self.start(),
            end: self.end(),
        };
        let way = on_line(&chord, from) - from;
        // What is nearer by a rounding is not nearer.
        let least = by_mm * way.norm() * (1.0 - 1e-12);
        let Homogeneous { z, r, w } = self.homogeneous();
        let beyond = z.scaled(way.z).plus(way.r, &r);
        let beyond = beyond.plus(-way.dot(from) - least, &w);
        beyond.has_positive_coefficients()
    }

    /// Where two curves come nearest to each other; where they cross, one of the crossings is
    /// found only if both are lines.
    ///
    /// With a line: exact, by the places where the tangents are parallel and the ends. Two curves:
    /// the nearest places from sixty-five along one of them, each least of those polished.
    pub fn approach(&self, other: &Curve) -> Approach {
        match (self, other) {
            (Curve::Line(one), Curve::Line(two)) => lines(one, two),
            (Curve::Line(line), curve) => with_line(curve, line).swapped(),
            (curve, Curve::Line(line)) => with_line(curve, line),
            (one, two) => sampled(one, two),
        }
    }
}

impl Chain {
    /// Where two chains come nearest to each other.
    pub fn approach(&self, other: &Chain) -> Approach {
        let boxed = |chain: &Chain| -> Vec<(Curve, Bounds)> {
            chain
                .segments()
                .iter()
                .map(|segment| (segment.curve, segment.curve.bounds()))
                .collect()
        };
        let (ours, theirs) = (boxed(self), boxed(other));
        let mut best = Approach::between(self.start(), other.start());
        for (one, near) in &ours {
            for (two, far) in &theirs {
                if near.distance(far) < best.distance_mm {
                    best = best.nearer(one.approach(two));
                }
            }
        }
        best
    }
}

fn on_line(line: &Line, to: Point) -> Point {
    let way = line.end - line.start;
    let square = way.dot(way);
    let part = if square > 0.0 {
        ((to - line.start).dot(way) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    line.start.towards(line.end, part)
}

fn lines(one: &Line, two: &Line) -> Approach {
    let (way, other) = (one.end - one.start, two.end - two.start);
    let (turn, apart) = (way.cross(other), two.start - one.start);
    let (part, second) = (apart.cross(other) / turn, apart.cross(way) / turn);
    if turn != 0.0 && (0.0..=1.0).contains(&part) && (0.0..=1.0).contains(&second) {
        let meeting = one.start.towards(one.end, part);
        return Approach::between(meeting, meeting);
    }
    let from = |end: Point| Approach::between(end, on_line(two, end));
    let to = |end: Point| Approach::between(on_line(one, end), end);
    from(one.start)
        .nearer(from(one.end))
        .nearer(to(two.start))
        .nearer(to(two.end))
}

fn with_line(curve: &Curve, line: &Line) -> Approach {
    let down = |place: Point| Approach::between(place, on_line(line, place));
    let ends = down(curve.start()).nearer(down(curve.end()));
    let offer = |best: Approach, t: &f64| best.nearer(down(curve.point(*t)));
    let parallels = curve.parallel_to(line.end - line.start);
    let best = parallels.as_slice().iter().fold(ends, offer);
    let up = |best: Approach, end: Point| match curve.clears(end, best.distance_mm) {
        true => best,
        false => best.nearer(Approach::between(curve.nearest(end), end)),
    };
    let best = up(up(best, line.start), line.end);
    if curve.hull().distance(&Curve::Line(*line).hull()) > 0.0 {
        return best;
    }
    let crossings = where_it_crosses(curve, line);
    crossings.as_slice().iter().fold(best, offer)
}

fn sampled(one: &Curve, two: &Curve) -> Approach {
    const PARTS: usize = 64;
    let at = |t: f64| {
        let place = one.point(t);
        Approach::between(place, two.nearest(place))
    };
    // Negative while going on along the first curve still comes nearer.
    let pull = |t: f64, found: &Approach| one.tangent(t).dot(found.one - found.other);
    let node = |at: usize| at as f64 / PARTS as f64;
    let from = |end: Point| Approach::between(one.nearest(end), end);
    let mut best = from(two.start()).nearer(from(two.end()));
    let found: Vec<Approach> = (0..=PARTS).map(|index| at(node(index))).collect();
    for index in 0..=PARTS {
        best = best.nearer(found[index]);
        if index == 0
            || pull(node(index - 1), &found[index - 1]) >= 0.0
            || pull(node(index), &found[index]) <= 0.0
        {
            continue;
        }
        let (mut low, mut high) = (node(index - 1), node(index));
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            let here = at(middle);
            best = best.nearer(here);
            if pull(middle, &here) < 0.0 {
                low = middle
            } else {
                high = middle
            }
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_curve::curves;
    use crate::{Arc, Cubic};
    use proptest::prelude::*;

    fn places(curve: &Curve) -> Vec<Point> {
        (0..=400)
            .map(|at| curve.point(f64::from(at) / 400.0))
            .collect()
    }

    proptest! {
        #[test]
        fn no_place_is_nearer_than_the_nearest(curve in curves(), z in -5.0..25.0_f64, r in 0.0..12.0_f64) {
            let to = Point::new(z, r);
            let found = curve.nearest(to).distance(to);
            let sampled = places(&curve).iter().map(|place| place.distance(to)).fold(f64::INFINITY, f64::min);
            prop_assert!(found <= sampled + 1e-12, "{found} but {sampled}");
            prop_assert!(sampled <= found + 0.2);
        }

        #[test]
        fn no_two_places_are_nearer_than_the_approach(one in curves(), two in curves(), apart in 9.0..15.0_f64) {
            // Lifted clear of each other, so that they do not cross.
            let two = lifted(&two, apart);
            let found = one.approach(&two);
            prop_assert!((found.one.distance(found.other) - found.distance_mm).abs() < 1e-12);
            let swapped = two.approach(&one);
            prop_assert!((swapped.distance_mm - found.distance_mm).abs() < 1e-7);
            let theirs = places(&two);
            let sampled = places(&one).iter().flat_map(|a| theirs.iter().map(|b| a.distance(*b))).fold(f64::INFINITY, f64::min);
            prop_assert!(found.distance_mm <= sampled + 1e-9, "{found:?} but {sampled}");
            prop_assert!(one.bounds().distance(&two.bounds()) <= found.distance_mm + 1e-9);
        }
    }

    fn lifted(curve: &Curve, by: f64) -> Curve {
        let up = |place: Point| place + Point::new(0.0, by);
        match curve {
            Curve::Line(line) => Curve::line(up(line.start), up(line.end)),
            Curve::Arc(arc) => Arc::new(
                up(arc.start()),
                up(arc.end()),
                arc.semi_z_mm(),
                arc.semi_r_mm(),
                arc.is_convex(),
            )
            .unwrap()
            .into(),
            Curve::Cubic(cubic) => Cubic::new(cubic.points().map(up)).unwrap().into(),
        }
    }

    #[test]
    fn crossing_lines_meet() {
        let at = Point::new;
        let found = Curve::line(at(0.0, 0.0), at(2.0, 2.0))
            .approach(&Curve::line(at(0.0, 2.0), at(2.0, 0.0)));
        assert_eq!(
            found,
            Approach {
                distance_mm: 0.0,
                one: at(1.0, 1.0),
                other: at(1.0, 1.0)
            }
        );
    }
}
