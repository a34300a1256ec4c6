//! Curves bounded by radii, and curves whose radii are replaced by others.

use crate::chain::SAME;
use crate::{Cubic, Curve, Point};

/// Carried curves keep to what they stand for within this share of the radius.
const FAITHFUL: f64 = 1e-9;

/// So often a piece is halved at most.
const DEEPEST: u32 = 12;

impl Curve {
    /// The parts of the curve whose radius lies between two, `low` below `high`, in order; parts
    /// shorter than 1e-9 mm along the axis are left out.
    pub fn between_radii(&self, low: f64, high: f64) -> Vec<Curve> {
        if self.is_vertical() {
            return Vec::new();
        }
        let within = |piece: Curve| {
            let (start, end) = (piece.start().r, piece.end().r);
            if start.max(end) < low - SAME || start.min(end) > high + SAME {
                return None;
            }
            if (end - start).abs() <= SAME {
                return Some(piece);
            }
            let at = |r: f64| piece.param_at_r(r);
            let (one, two) = (at(low), at(high));
            let part = piece.between_params(one.min(two), one.max(two));
            (part.end().z - part.start().z > SAME).then_some(part)
        };
        self.monotone_pieces().filter_map(within).collect()
    }

    /// The curve with every radius replaced, as pieces that follow each other along the axis.
    ///
    /// `of` gives for a radius in mm the one that takes its place and how fast that grows with it;
    /// it must be smooth over the curve's radii. Level lines stay such; the rest are cubics with
    /// the true tangents at their ends, halved until they keep to it within 1e-9 of the radius.
    pub fn with_radii(&self, of: &dyn Fn(f64) -> (f64, f64)) -> Vec<Curve> {
        if let Curve::Line(line) = self
            && (line.start.r - line.end.r).abs() <= SAME
        {
            let raised = |place: Point| Point::new(place.z, of(line.start.r).0);
            return vec![Curve::line(raised(line.start), raised(line.end))];
        }
        let swept = self.swept();
        let carried = |part: f64| {
            let (place, step) = swept(part);
            let (r, rate) = of(place.r);
            Knot {
                part,
                at: Point::new(place.z, r),
                step: Point::new(step.z, step.r * rate),
            }
        };
        let mut pieces = Vec::new();
        follow(&carried, carried(0.0), carried(1.0), 0, &mut pieces);
        pieces
    }

    /// The place and its step per unit of a parameter from 0 to 1 in which both are smooth: an arc's is the
    /// share of its angle.
    pub(crate) fn swept(&self) -> impl Fn(f64) -> (Point, Point) + '_ {
        let arc = match self {
            Curve::Arc(arc) => Some(arc.swept()),
            _ => None,
        };
        move |part| match &arc {
            Some(arc) => arc.at(part),
            None => (self.point(part), self.tangent(part)),
        }
    }
}

/// A place of a carried curve, with its step per unit of the parameter.
#[derive(Clone, Copy)]
struct Knot {
    part: f64,
    at: Point,
    step: Point,
}

fn follow(
    carried: &dyn Fn(f64) -> Knot,
    from: Knot,
    to: Knot,
    depth: u32,
    pieces: &mut Vec<Curve>,
) {
    let middle = carried((from.part + to.part) / 2.0);
    let third = (to.part - from.part) / 3.0;
    let cubic = Cubic::new([
        from.at,
        from.at + from.step * third,
        to.at - to.step * third,
        to.at,
    ]);
    let curve = cubic.map_or_else(|| Curve::line(from.at, to.at), Curve::Cubic);
    let quarter = carried(from.part + (to.part - from.part) / 4.0);
    let off = |t: f64, wanted: Knot| curve.point(t).distance(wanted.at);
    let most = FAITHFUL * middle.at.r.abs();
    // Written so that what is not a number ends it.
    let differs = off(0.5, middle) > most || off(0.25, quarter) > most || cubic.is_none();
    if differs && depth < DEEPEST {
        follow(carried, from, middle, depth + 1, pieces);
        follow(carried, middle, to, depth + 1, pieces);
    } else {
        pieces.push(curve);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_curve::curves;
    use proptest::prelude::*;

    /// A smooth stand-in for a thread's equal-volume radius: it bends, and never falls.
    fn bent(r: f64) -> (f64, f64) {
        let square = 2.0 + 0.3 * r * r + 0.04 * r * r * r;
        let half_rate = 0.3 * r + 0.06 * r * r;
        (square.sqrt(), half_rate / square.sqrt())
    }

    proptest! {
        #[test]
        fn carried_curves_keep_to_what_they_stand_for(curve in curves(), share in 0.0..1.0_f64) {
            prop_assume!(!curve.is_vertical());
            let pieces = curve.with_radii(&bent);
            prop_assert_eq!(pieces[0].start().z, curve.start().z);
            prop_assert_eq!(pieces[pieces.len() - 1].end().z, curve.end().z);
            for pair in pieces.windows(2) {
                prop_assert_eq!(pair[0].end(), pair[1].start());
            }
            let place = curve.point(share);
            let wanted = Point::new(place.z, bent(place.r).0);
            let near = pieces
                .iter()
                .filter(|it| it.start().z - 0.1 <= place.z && place.z <= it.end().z + 0.1)
                .map(|it| distance(it, wanted));
            let off = near.fold(f64::INFINITY, f64::min);
            prop_assert!(off < 3e-9 * wanted.r, "off by {off} of {wanted:?}");
        }

        #[test]
        fn parts_between_two_radii_hold_all_of_them(curve in curves(), low in 0.0..8.0_f64, band in 0.01..4.0_f64, share in 0.0..1.0_f64) {
            prop_assume!(!curve.is_vertical());
            let (high, place) = (low + band, curve.point(share));
            let parts = curve.between_radii(low, high);
            for part in &parts {
                for t in [0.0, 0.5, 1.0] {
                    let r = part.point(t).r;
                    prop_assert!(low - 1e-8 < r && r < high + 1e-8, "{r} is not in {low}..{high}");
                }
            }
            let held = parts.iter().any(|it| it.spans(place.z));
            let inside = low + 1e-6 < place.r && place.r < high - 1e-6;
            prop_assert!(held || !inside, "{place:?} is left out");
        }
    }

    /// By thirds from the nearest of a hundred places.
    fn distance(curve: &Curve, to: Point) -> f64 {
        let at = |t: f64| curve.point(t).distance(to);
        let first = (0..=100).map(|nth| f64::from(nth) / 100.0);
        let near = first.min_by(|a, b| at(*a).total_cmp(&at(*b))).unwrap();
        let (mut low, mut high) = ((near - 0.01).max(0.0), (near + 0.01).min(1.0));
        for _ in 0..80 {
            let third = (high - low) / 3.0;
            match at(low + third) < at(high - third) {
                true => high -= third,
                false => low += third,
            }
        }
        at((low + high) / 2.0)
    }

    #[test]
    fn a_level_line_stays_one_line() {
        let line = Curve::line(Point::new(1.0, 3.0), Point::new(4.0, 3.0));
        let wanted = Curve::line(Point::new(1.0, bent(3.0).0), Point::new(4.0, bent(3.0).0));
        assert_eq!(line.with_radii(&bent), [wanted]);
    }

    #[test]
    fn what_only_reaches_a_radius_has_no_part_there() {
        let cone = Curve::line(Point::new(1.0, 3.0), Point::new(9.0, 5.0));
        assert_eq!(cone.between_radii(5.0, 7.0), []);
        assert_eq!(cone.between_radii(1.0, 3.0), []);
    }
}
