use std::f64::consts::PI;

use super::*;
use crate::any_curve::curves;
use crate::section::Apothem;
use crate::{Properties, Tag};
use proptest::prelude::*;

fn rod(from: (f64, f64), to: (f64, f64)) -> Vec<Chain> {
    let line = Curve::line(Point::new(from.0, from.1), Point::new(to.0, to.1));
    vec![Chain::single(Tag(0), line)]
}

fn body<'a>(outside: &'a [Chain], inside: &'a [Chain], flats: &'a [Flats]) -> Body<'a> {
    Body {
        outside,
        inside,
        flats,
    }
}

fn close(found: f64, wanted: f64, within: f64) {
    let off = (found - wanted).abs();
    assert!(off <= within, "{found}, {wanted} wanted");
}

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

/// 1.5 from ⌀14 into ⌀10, by an independent polar quadrature to seven figures.
#[test]
fn a_hole_into_a_bore_takes_what_a_polar_quadrature_says() {
    let (outside, bore) = (rod((0.0, 7.0), (70.0, 7.0)), rod((0.0, 5.0), (70.0, 5.0)));
    let hole = SideCut::hole(1.5, 30.0, Floor::Void);
    let tube = body(&outside, &bore, &[]);
    let taken = hole.removed(&tube);
    close(taken.volume_mm3, 3.541_437, 5e-7);
    close(taken.z_mm4, 30.0 * taken.volume_mm3, 1e-9);
    // ∫∫ over the hole itself, from its own middle: another set of coordinates again.
    let mut polar = 0.0;
    let (rings, rays) = (400, 64);
    for ring in 0..rings {
        let rho = 0.75 * (f64::from(ring) + 0.5) / f64::from(rings);
        for ray in 0..rays {
            let y = rho * (2.0 * PI * (f64::from(ray) + 0.5) / f64::from(rays)).sin();
            let deep = (49.0 - y * y).sqrt() - (25.0 - y * y).sqrt();
            polar += deep * rho * (0.75 / f64::from(rings)) * (2.0 * PI / f64::from(rays));
        }
    }
    close(taken.volume_mm3, polar, 1e-6);
    let four = SideCut { count: 4, ..hole }.removed(&tube);
    close(four.volume_mm3, 4.0 * taken.volume_mm3, 1e-12);
    assert!(four.offset_mm().unwrap()[0].abs() < 1e-12);
    let through = SideCut {
        floor: Floor::Through,
        ..hole
    };
    close(
        through.removed(&tube).volume_mm3,
        2.0 * taken.volume_mm3,
        1e-12,
    );
}

/// The same integrals by scipy.integrate.quad over the width, to 1e-12.
#[test]
fn slots_take_what_a_quadrature_over_their_width_says() {
    let solid = rod((0.0, 7.2), (80.0, 7.2));
    let blind = SideCut {
        from_mm: 30.0,
        to_mm: 46.0,
        width_mm: 2.0,
        open: [false; 2],
        floor: Floor::Plane(6.2),
        count: 1,
        clock_deg: 0.0,
    };
    close(
        blind.removed(&body(&solid, &[], &[])).volume_mm3,
        30.436_882_181_013,
        1e-8,
    );
    let (tube, bore) = (rod((0.0, 7.4), (80.0, 7.4)), rod((0.0, 5.95), (80.0, 5.95)));
    let wide = SideCut {
        to_mm: 31.2,
        width_mm: 4.2,
        floor: Floor::Void,
        ..blind
    };
    close(
        wide.removed(&body(&tube, &bore, &[])).volume_mm3,
        6.966_675_916_276,
        1e-8,
    );
}

#[test]
fn an_open_end_is_square_and_fingers_leave_what_is_between() {
    let (tube, bore) = (rod((0.0, 7.0), (30.0, 7.0)), rod((0.0, 6.05), (30.0, 6.05)));
    let slots = SideCut {
        from_mm: 0.0,
        to_mm: 9.5,
        width_mm: 1.0,
        open: [true, false],
        floor: Floor::Void,
        count: 6,
        clock_deg: 0.0,
    };
    assert_eq!(slots.half_width_mm(0.0), 0.5);
    assert_eq!(slots.half_width_mm(9.5), 0.0);
    close(slots.half_width_mm(9.25), (0.25_f64 * 0.75).sqrt(), 1e-12);
    let taken = slots.removed(&body(&tube, &bore, &[]));
    // Straight for 9 mm, half a circle after it.
    let deep = |r: f64| r * r * (0.5 / r).asin() + 0.5 * (r * r - 0.25).sqrt();
    let straight = 6.0 * 9.0 * (deep(7.0) - deep(6.05));
    let rounded = SideCut {
        from_mm: 9.0,
        to_mm: 10.0,
        open: [false; 2],
        ..slots
    };
    let ends = rounded.removed(&body(&tube, &bore, &[])).volume_mm3 / 2.0;
    close(taken.volume_mm3, straight + ends, 1e-9);
    let between = slots.between_mm(6.05).unwrap();
    let corner = (6.05_f64 * 6.05 - 0.25).sqrt();
    let (one, next) = (0.5_f64.atan2(corner), PI / 3.0 - 0.5_f64.atan2(corner));
    close(between, 2.0 * 6.05 * ((next - one) / 2.0).sin(), 1e-9);
}

#[test]
fn the_low_outline_has_the_floor_or_nothing() {
    let outside = rod((0.0, 7.0), (70.0, 7.0));
    let hole = SideCut::hole(2.0, 30.0, Floor::Plane(5.5));
    let low = hole.low(&outside[0], Tag(1));
    assert_eq!(low[0].radii_at(30.0), Some((5.5, 5.5)));
    assert_eq!(low[0].radii_at(32.0), Some((7.0, 7.0)));
    let open = SideCut {
        floor: Floor::Void,
        ..hole
    };
    let low = open.low(&outside[0], Tag(1));
    assert_eq!(low.len(), 2);
    assert_eq!((low[0].end().z, low[1].start().z), (29.0, 31.0));
}

#[test]
fn what_cannot_be_cut_takes_nothing() {
    let outside = rod((0.0, 7.0), (70.0, 7.0));
    let good = SideCut::hole(2.0, 30.0, Floor::Void);
    for bad in [f64::NAN, f64::INFINITY, -1.0] {
        for cut in [
            SideCut {
                width_mm: bad,
                ..good
            },
            SideCut {
                to_mm: if bad < 0.0 { 29.0 } else { bad },
                ..good
            },
            SideCut {
                floor: Floor::Plane(bad.min(9.0)),
                ..good
            },
        ] {
            let taken = cut.removed(&body(&outside, &[], &[])).volume_mm3;
            assert!(taken.is_finite() && taken >= 0.0, "{cut:?}");
        }
    }
    let none = SideCut { count: 0, ..good };
    assert_eq!(none.removed(&body(&outside, &[], &[])), Moments::default());
    let beside = SideCut::hole(2.0, 80.0, Floor::Void);
    assert_eq!(
        beside.removed(&body(&outside, &[], &[])),
        Moments::default()
    );
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
                let (sin, cos) = towards.to_radians().sin_cos();
                let _ = sin;
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

/// An octagon with three holes in its flats and a blind slot: nothing is counted twice, against
/// the same steps on the whole part.
#[test]
fn cuts_in_flats_begin_at_the_flats() {
    let (outside, bore) = (rod((0.0, 7.0), (70.0, 7.0)), rod((0.0, 5.0), (70.0, 5.0)));
    let flats = [Flats {
        from_mm: 10.0,
        to_mm: 60.0,
        apothem: Apothem::Straight {
            from_mm: 6.6,
            to_mm: 6.6,
        },
        count: 8,
        clock_deg: 0.0,
    }];
    let hole = SideCut::hole(1.5, 30.0, Floor::Void);
    let taken = hole.removed(&body(&outside, &bore, &flats)).volume_mm3;
    // In the flat's middle the outside is a plane: a cylinder less what the bore rounds off.
    let round = hole
        .removed(&body(&rod((0.0, 6.6), (70.0, 6.6)), &bore, &[]))
        .volume_mm3;
    let cap = {
        // ∫ 2√(c² - y²) (6.6 - √(6.6² - y²)) dy
        crate::integral(-0.75, 0.75, |y: f64| {
            2.0 * (0.5625 - y * y).max(0.0).sqrt() * (6.6 - (43.56 - y * y).sqrt())
        })
    };
    close(taken, round + cap, 1e-10);
    let whole = Properties::between(&outside, &bore).volume_mm3;
    assert!(taken < 0.001 * whole);
}
