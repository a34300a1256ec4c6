use std::f64::consts::PI;

use super::*;
use crate::section::{Apothem, Flats};
use crate::side::Floor;
use crate::{Curve, Tag};

fn rod(length: f64, r: f64) -> Vec<Chain> {
    let line = Curve::line(Point::new(0.0, r), Point::new(length, r));
    vec![Chain::single(Tag(0), line)]
}

fn close(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found}, {wanted} wanted");
}

fn twice(outside: &[Chain], inside: &[Chain], flats: &[Flats], cuts: &Cuts) -> Moments {
    let body = Body {
        outside,
        inside,
        flats,
    };
    counted_twice(&body, cuts)
}

fn openings(all: &[SideCut]) -> Cuts {
    Cuts {
        openings: all.to_vec(),
        ..Cuts::default()
    }
}

fn hole(dia: f64, at: f64, clock_deg: f64) -> SideCut {
    SideCut {
        clock_deg,
        ..SideCut::hole(dia, at, Floor::Through)
    }
}

/// Two equal cylinders at right angles share 16 r³ / 3 (Archimedes, The Method).
#[test]
fn two_holes_that_cross_share_a_bicylinder() {
    let solid = rod(40.0, 7.0);
    for dia in [1.5, 3.0] {
        let crossed = openings(&[hole(dia, 20.0, 0.0), hole(dia, 20.0, 90.0)]);
        let shared = twice(&solid, &[], &[], &crossed);
        let wanted = 16.0 / 3.0 * (dia / 2.0f64).powi(3);
        close(shared.volume_mm3, wanted, 1e-6 * wanted);
        close(shared.z_mm4, 20.0 * wanted, 1e-4);
        // At 60 degrees it is longer by 1 / sin 60°.
        let askew = openings(&[hole(dia, 20.0, 10.0), hole(dia, 20.0, 70.0)]);
        let wanted = wanted / 60f64.to_radians().sin();
        close(
            twice(&solid, &[], &[], &askew).volume_mm3,
            wanted,
            1e-6 * wanted,
        );
        // In a tube wider than they are they do not meet, nor do they further apart than they are wide.
        let tube = rod(40.0, 3.0);
        assert_eq!(twice(&solid, &tube, &[], &crossed), Moments::default());
        let apart = openings(&[hole(dia, 20.0, 0.0), hole(dia, 20.0 + dia, 90.0)]);
        assert_eq!(twice(&solid, &[], &[], &apart), Moments::default());
    }
}

/// A hole drilled through twice, from either side, is one hole.
#[test]
fn a_hole_through_drilled_from_both_sides_is_one() {
    let (solid, bore) = (rod(40.0, 7.0), rod(40.0, 4.0));
    let twofold = SideCut {
        count: 2,
        ..hole(2.0, 15.0, 30.0)
    };
    for inside in [&[][..], &bore[..]] {
        let one = hole(2.0, 15.0, 30.0).removed(&Body {
            outside: &solid,
            inside,
            flats: &[],
        });
        let shared = twice(&solid, inside, &[], &openings(&[twofold]));
        close(shared.volume_mm3, one.volume_mm3, 1e-6 * one.volume_mm3);
        close(shared.axial_mm5, one.axial_mm5, 1e-6 * one.axial_mm5);
    }
}

/// Two slots 2 wide to one floor that lie over each other along 4 mm, off the middle by an angle: of the one
/// in the same place, all of that; square ends, so that a plane's area is enough.
#[test]
fn slots_over_each_other_count_once() {
    let solid = rod(40.0, 7.0);
    let slot = |from_mm: f64, to_mm: f64, width_mm: f64| SideCut {
        from_mm,
        to_mm,
        width_mm,
        open: [true; 2],
        floor: Floor::Plane(5.0),
        count: 1,
        clock_deg: 40.0,
    };
    // ∫ (√(49 - v²) - 5) dv over ±h.
    let area = |h: f64| h * (49.0 - h * h).sqrt() + 49.0 * (h / 7.0).asin() - 10.0 * h;
    for (from, to, width) in [(10.0, 14.0, 2.0), (8.0, 12.0, 1.2)] {
        let both = openings(&[slot(6.0, to, 2.0), slot(from, 20.0, width)]);
        let shared = twice(&solid, &[], &[], &both);
        let wanted = area(width / 2.0) * (to - from);
        close(shared.volume_mm3, wanted, 1e-6 * wanted);
        let [x, y] = shared.offset_mm().unwrap();
        close(y.atan2(x).to_degrees(), 40.0, 1e-6);
    }
}

/// Of a knurl's ring a hole has taken its own: the share of that counts once. A hole 2 across goes
/// ∫ (√(R² - v²) - √(r² - v²)) dv dz through the ring.
#[test]
fn a_hole_in_a_knurl_takes_the_whole_of_its_ring() {
    let (solid, bore) = (rod(40.0, 7.0), rod(40.0, 5.0));
    for (deep_mm, share) in [(0.25, 0.5), (0.4, 0.3)] {
        let cuts = Cuts {
            patterns: vec![Pattern {
                from_mm: 10.0,
                to_mm: 30.0,
                deep_mm,
                share,
            }],
            ..openings(&[SideCut::hole(2.0, 20.0, Floor::Void)])
        };
        let shared = twice(&solid, &bore, &[], &cuts).volume_mm3;
        let (high, low) = (49.0, (7.0 - deep_mm) * (7.0 - deep_mm));
        let through = crate::integral(-1.0, 1.0, |v: f64| {
            2.0 * (1.0 - v * v).max(0.0).sqrt() * ((high - v * v).sqrt() - (low - v * v).sqrt())
        });
        close(shared, share * through, 1e-6 * through);
        // Beside the knurl it takes nothing of it.
        let beside = openings(&[SideCut::hole(2.0, 31.0, Floor::Void)]);
        let beside = Cuts {
            patterns: cuts.patterns,
            ..beside
        };
        assert_eq!(twice(&solid, &bore, &[], &beside), Moments::default());
    }
}

/// A knurl over a flat: the segment beyond 6.9 lies whole in the ring of 0.25; both took it.
#[test]
fn a_knurl_over_a_flat_counts_once() {
    let solid = rod(40.0, 7.0);
    let flat = |apothem: f64| Flats {
        from_mm: 5.0,
        to_mm: 25.0,
        apothem: Apothem::Straight {
            from_mm: apothem,
            to_mm: apothem,
        },
        count: 1,
        clock_deg: 75.0,
    };
    let cuts = Cuts {
        patterns: vec![Pattern {
            from_mm: 10.0,
            to_mm: 30.0,
            deep_mm: 0.25,
            share: 0.5,
        }],
        ..Cuts::default()
    };
    for apothem in [6.9, 6.8] {
        let shared = twice(&solid, &[], &[flat(apothem)], &cuts).volume_mm3;
        // 49 acos(a / 7) - a √(49 - a²), a handbook's segment.
        let segment =
            49.0 * (apothem / 7.0f64).acos() - apothem * (49.0 - apothem * apothem).sqrt();
        close(shared, 0.5 * segment * 15.0, 1e-6 * segment);
    }
}

/// A hole of 3 whose middle stands 4.5 from the axis breaks into a bore of ⌀8 by the lens of two circles
/// (handbook), 10 long; one of 1 does not.
#[test]
fn a_hole_beside_the_axis_takes_nothing_of_the_bore() {
    let (solid, bore) = (rod(40.0, 8.0), rod(40.0, 4.0));
    let circle = |hole_mm: f64, on_mm: f64, count: u32| Cuts {
        circles: vec![Circle {
            on_mm,
            hole_mm,
            from_mm: 0.0,
            to_mm: 10.0,
            tips_mm: [0.0; 2],
            count,
            clock_deg: 15.0,
        }],
        ..Cuts::default()
    };
    let lens = |a: f64, b: f64, d: f64| {
        let one = ((d * d + a * a - b * b) / (2.0 * d * a)).acos();
        let two = ((d * d + b * b - a * a) / (2.0 * d * b)).acos();
        a * a * (one - one.sin() * one.cos()) + b * b * (two - two.sin() * two.cos())
    };
    for (hole, on, count) in [(3.0, 9.0, 1), (3.0, 10.0, 3)] {
        let shared = twice(&solid, &bore, &[], &circle(hole, on, count));
        let wanted = lens(hole / 2.0, 4.0, on / 2.0) * 10.0 * f64::from(count);
        close(shared.volume_mm3, wanted, 1e-6 * wanted);
    }
    assert_eq!(
        twice(&solid, &bore, &[], &circle(1.0, 9.2, 4)),
        Moments::default()
    );
    // Neighbours that run into each other: six of 3 on ⌀10 stand 5 apart, eight 3.83, twelve 2.59.
    for (count, meet) in [(6, false), (12, true)] {
        let shared = twice(&solid, &[], &[], &circle(3.0, 10.0, count)).volume_mm3;
        let apart = 10.0 * (PI / f64::from(count)).sin();
        let wanted = if meet {
            lens(1.5, 1.5, apart) * 10.0 * f64::from(count)
        } else {
            0.0
        };
        close(shared, wanted, 1e-6 * wanted.max(1e-9));
    }
}

#[test]
fn what_is_no_number_counts_nothing() {
    let solid = rod(40.0, 7.0);
    for bad in [f64::NAN, f64::INFINITY, -1.0, 0.0] {
        let cuts = openings(&[hole(bad, 20.0, 0.0), hole(2.0, 20.0, 90.0)]);
        assert!(twice(&solid, &[], &[], &cuts).volume_mm3.is_finite());
        let cuts = openings(&[hole(2.0, bad, 0.0), hole(2.0, 20.0, bad)]);
        assert!(twice(&solid, &[], &[], &cuts).volume_mm3.is_finite());
    }
}
