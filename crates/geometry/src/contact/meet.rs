//! Where one piece of a male meets one piece of a female.

use super::Contact;
use super::piece::Piece;
use crate::{Curve, Point};

/// The least reach of two pieces of which the male grows fatter than the female's narrowest.
pub(super) fn meet(male: &Piece, female: &Piece) -> Option<Contact> {
    let contact = |a: f64, d: f64, radius_mm: f64| Contact {
        male: male.tag,
        female: female.tag,
        reach_mm: a + d,
        radius_mm,
        male_at_mm: a,
        female_at_mm: d,
    };
    // Radii at which both are on their way: between the male's first radius and its last, and
    // between the female's last and its first.
    let low = male.radius.0.max(female.radius.1);
    let high = male.radius.1.min(female.radius.0);
    if low >= high {
        // The male's start is fatter than the female's, or one of them is a single place.
        let r = if low > female.radius.0 {
            (male.radius.0 + female.radius.0) / 2.0
        } else {
            low
        };
        return Some(contact(male.station_at(r), female.station_at(r), r));
    }
    let (Some(one), Some(two)) = (&male.shape, &female.shape) else {
        return None;
    };
    let at = |r: f64| (male.station_at(r), female.station_at(r), r);
    let mut best = at(low);
    let mut offer = |found: (f64, f64, f64)| {
        if found.0 + found.1 < best.0 + best.1 {
            best = found;
        }
    };
    offer(at(high));
    // Between the ends they touch where their slopes are opposite: tangents parallel, one of them
    // turned end for end.
    match (one, two) {
        (Curve::Line(_), Curve::Line(_)) => {}
        (Curve::Line(line), curve) | (curve, Curve::Line(line)) => {
            let way = line.end - line.start;
            for t in curve.parallel_to(Point::new(way.z, -way.r)).as_slice() {
                offer(at(curve.point(*t).r.clamp(low, high)));
            }
        }
        _ => between_curves(one, two, (low, high), &mut |r| offer(at(r))),
    }
    let (a, d, r) = best;
    Some(contact(a, d, r))
}

/// Offers the radii between which `A + D` turns from falling to rising.
///
/// dA/dr and dD/dr only grow or only fall along pieces that bend to one side, so their values at
/// the ends of a stretch bound them between; a stretch is halved until the sum cannot be zero in
/// it or cannot matter by more than 1e-9 mm.
fn between_curves(one: &Curve, two: &Curve, (low, high): (f64, f64), offer: &mut dyn FnMut(f64)) {
    /// A radius with dz/dr of the male and of the female.
    type Node = (f64, f64, f64);
    const NO_MATTER_MM: f64 = 1e-9;
    let run = |curve: &Curve, r: f64| {
        let way = curve.tangent(curve.param_at_r(r));
        way.z / way.r.abs()
    };
    // Rounding may turn the sign where a curve runs level.
    let node = |r: f64| -> Node { (r, run(one, r), -run(two, r)) };
    let mut waiting = vec![(node(low), node(high), 0)];
    while let Some((left, right, depth)) = waiting.pop() {
        let least = left.1.min(right.1) + left.2.min(right.2);
        let most = left.1.max(right.1) + left.2.max(right.2);
        let settled =
            least >= 0.0 || most <= 0.0 || (most - least) * (right.0 - left.0) < NO_MATTER_MM;
        let middle = (left.0 + right.0) / 2.0;
        offer(middle);
        if !settled && depth < 50 {
            let middle = node(middle);
            waiting.push((left, middle, depth + 1));
            waiting.push((middle, right, depth + 1));
        }
    }
}
