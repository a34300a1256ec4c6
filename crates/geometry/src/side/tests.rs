mod by_steps;

use std::f64::consts::PI;

use super::*;
use crate::section::Apothem;
use crate::{Properties, Tag};

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
