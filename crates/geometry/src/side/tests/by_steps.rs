//! Any cut, against steps of the angle and of the station.

use super::super::*;
use super::{body, rod};
use crate::Tag;
use crate::any_curve::curves;
use crate::section::Apothem;
use proptest::prelude::*;
use std::f64::consts::PI;

/// What one of the cuts takes, by steps of the angle and of the station: volume, ∫x along the cut,
/// ∫z and ∫(x² + y²). In polar coordinates, where the code sums strips.
fn by_steps(cut: &SideCut, body: &Body, clock_deg: f64, steps: (u32, u32)) -> [f64; 4] {
    let mut sums = [0.0; 4];
    let length = cut.to_mm - cut.from_mm;
    for nth in 0..steps.0 {
        // Thinner towards the ends, which are round.
        let u = (f64::from(nth) + 0.5) / f64::from(steps.0);
        let z = cut.from_mm + length * u * u * (3.0 - 2.0 * u);
        let dz = length * 6.0 * u * (1.0 - u) / f64::from(steps.0);
        let place = Point::new(z, body.outside[0].segment_at(z).unwrap().curve.radius_at(z));
        let section = section_at(place, body.flats).unwrap();
        let bore = body
            .inside
            .first()
            .map_or(0.0, |it| it.segment_at(z).unwrap().curve.radius_at(z));
        let half = cut.half_width_mm(z);
        let floor = match cut.floor {
            Floor::Plane(at) => at,
            _ => 0.0,
        };
        // Where the cut's side meets the bore or the floor, whichever comes first.
        let on_bore = if half < bore {
            (half / bore).asin()
        } else {
            PI / 2.0
        };
        let widest = on_bore.min(half.atan2(floor));
        // Up to where the cut's side meets the outside, and from there on by equal shares: what is
        // left beside that falls off as the square of the angle.
        let corner = (half / place.r).min(1.0).asin().min(widest);
        let each = f64::from(steps.1);
        let inside = (0..steps.1).map(|nth| {
            let angle = corner * (f64::from(nth) + 0.5) / each;
            (angle, corner / each)
        });
        let ratio = (widest / corner).ln();
        let beside = (0..steps.1).map(|nth| {
            let angle = corner * (ratio * (f64::from(nth) + 0.5) / each).exp();
            (angle, angle * ratio / each)
        });
        let both = inside
            .chain(beside)
            .flat_map(|(angle, step)| [(angle, step), (-angle, step)]);
        for (angle, step) in both {
            let outer = section
                .radius_at_mm(clock_deg + angle.to_degrees())
                .min(half / angle.sin().abs());
            let inner = bore.max(floor / angle.cos());
            if outer > inner {
                let cell = step * dz;
                let over =
                    |power: i32| (outer.powi(power) - inner.powi(power)) / f64::from(power) * cell;
                let each = [over(2), over(3) * angle.cos(), over(2) * z, over(4)];
                (0..4).for_each(|at| sums[at] += each[at]);
            }
        }
    }
    sums
}

fn cuts() -> impl Strategy<Value = SideCut> {
    let sizes = (0.05..0.9_f64, 0.05..0.9_f64, 0.1..0.9_f64, 0.15..0.95_f64);
    let kinds = (0..3, 0..4_usize, 1..4_u32, 0.0..360.0_f64);
    (sizes, kinds).prop_map(
        |((from, length, width, deep), (kind, open, count, clock_deg))| SideCut {
            from_mm: from,
            to_mm: from + length,
            width_mm: width,
            open: [open == 1, open == 2],
            floor: match kind {
                0 => Floor::Void,
                // A floor nearer to the axis the steps of angle see only roughly.
                1 => Floor::Plane(deep),
                _ => Floor::Through,
            },
            count,
            clock_deg,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Any cut in any outside over any bore, with flats or none, against steps of the angle.
    #[test]
    fn any_cut_takes_what_steps_take(
        curve in curves(),
        shape in cuts(),
        bore in prop::option::of((0.1..0.8_f64, 0.1..0.8_f64)),
        flats in prop::option::of((0.82..0.99_f64, 1..7_u32, 0.0..360.0_f64)),
    ) {
        let (from, to) = (curve.start().z, curve.end().z);
        let least = (0..=64)
            .map(|nth| curve.radius_at(from + (to - from) * f64::from(nth) / 64.0))
            .fold(curve.bounds().min.r, f64::min);
        prop_assume!(!curve.is_vertical() && to - from > 0.1 && least > 0.3);
        let length = to - from;
        let cut = SideCut {
            from_mm: from + length * shape.from_mm,
            to_mm: from + length * shape.to_mm.min(0.97),
            width_mm: 1.9 * least * shape.width_mm,
            floor: match shape.floor {
                Floor::Plane(share) => Floor::Plane(share * least),
                other => other,
            },
            ..shape
        };
        prop_assume!(cut.to_mm > cut.from_mm + 0.01 * length);
        let outside = vec![Chain::single(Tag(0), curve)];
        let inside: Vec<Chain> = bore
            .into_iter()
            .flat_map(|(one, two)| rod((from, one * least), (to, two * least)))
            .collect();
        let flats: Vec<Flats> = flats
            .into_iter()
            .map(|(share, count, clock_deg)| Flats {
                from_mm: from + 0.2 * length,
                to_mm: to,
                apothem: Apothem::Straight { from_mm: share * least, to_mm: share * least },
                count,
                clock_deg,
            })
            .collect();
        // Steps see where flats begin only roughly: both sides of it are taken apart.
        prop_assume!(flats.is_empty() || cut.from_mm >= from + 0.2 * length);
        let part = body(&outside, &inside, &flats);
        let taken = cut.removed(&part);
        let mut wanted = [0.0; 4];
        for nth in 0..cut.count {
            let clock = cut.clock_deg + 360.0 * f64::from(nth) / f64::from(cut.count);
            let ways = if cut.floor == Floor::Through { 2 } else { 1 };
            for way in 0..ways {
                let towards = clock + 180.0 * f64::from(way);
                let one = by_steps(&cut, &part, towards, (160, 200));
                let cos = towards.to_radians().cos();
                wanted[0] += one[0];
                wanted[1] += one[1] * cos;
                wanted[2] += one[2];
                wanted[3] += one[3];
            }
        }
        let r = curve.bounds().max.r;
        let scale = cut.width_mm * r * (cut.to_mm - cut.from_mm) * f64::from(2 * cut.count);
        prop_assert!((taken.volume_mm3 - wanted[0]).abs() < 2e-5 * scale, "{} {wanted:?}", taken.volume_mm3);
        prop_assert!((taken.z_mm4 - wanted[2]).abs() < 2e-5 * scale * to.abs().max(1.0), "{} {wanted:?}", taken.z_mm4);
        prop_assert!((taken.axial_mm5 - wanted[3]).abs() < 2e-5 * scale * r * r, "{} {wanted:?}", taken.axial_mm5);
    }
}
