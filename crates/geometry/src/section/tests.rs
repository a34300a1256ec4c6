mod any;

use super::*;
use crate::{Chain, Moments, Point, Properties, Tag, envelope};

fn close(found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within * wanted.abs().max(1e-9),
        "{found}, {wanted} wanted"
    );
}

fn flat(apothem_mm: f64, clock_deg: f64) -> Flat {
    Flat {
        apothem_mm,
        clock_deg,
    }
}

/// Area, first moments and polar moment of the outline by so many equal steps of the angle.
fn by_steps(section: &Section, steps: u32) -> [f64; 4] {
    let mut sums = [0.0; 4];
    for nth in 0..steps {
        let clock = 360.0 * (f64::from(nth) + 0.5) / f64::from(steps);
        let (sin, cos) = clock.to_radians().sin_cos();
        let rho = section.radius_at_mm(clock);
        let each = [
            rho.powi(2) / 2.0,
            rho.powi(3) / 3.0 * cos,
            rho.powi(3) / 3.0 * sin,
            rho.powi(4) / 4.0,
        ];
        (0..4).for_each(|at| sums[at] += each[at] * 2.0 * PI / f64::from(steps));
    }
    sums
}

/// Circular segment, from any handbook: centroid 4 r sin³(α) / 3 (2α - sin 2α) from the centre.
#[test]
fn a_single_flat_cuts_a_circular_segment_and_shifts_the_centroid() {
    let (r, a) = (7.5_f64, 7.0_f64);
    let cut = Section::cut(r, &[flat(a, 180.0)]).unwrap();
    let alpha = (a / r).acos();
    let area = r * r * (alpha - alpha.sin() * alpha.cos());
    let away = 4.0 * r * alpha.sin().powi(3) / (3.0 * (2.0 * alpha - (2.0 * alpha).sin()));
    close(cut.cut_away().area_mm2, area, 1e-12);
    close(cut.left().x_mm3, area * away, 1e-12);
    assert!(cut.left().y_mm3.abs() < 1e-12);
    assert_eq!((cut.low_mm(), cut.high_mm()), (a, r));
    close(cut.reach_mm(180.0, 0.4), a, 1e-15);
    close(cut.reach_mm(0.0, 0.4), (r * r - 0.16).sqrt(), 1e-15);
}

/// Regular polygon: area N a² tan(π/N), polar moment A a² (1 + tan²(π/N)/3) / 2.
#[test]
fn flats_that_meet_are_a_regular_polygon() {
    for count in [3, 4, 6, 8, 12, 360] {
        let (a, tan) = (5.0_f64, (PI / f64::from(count)).tan());
        let section = Section::evenly(11.0, flat(a, 22.5), count).unwrap();
        let (left, area) = (section.left(), f64::from(count) * a * a * tan);
        close(left.area_mm2, area, 1e-12);
        let polar = area * a * a * (1.0 + tan * tan / 3.0) / 2.0;
        close(left.xx_mm4 + left.yy_mm4, polar, 1e-11);
        close(left.xx_mm4, left.yy_mm4, 1e-11);
        assert!(left.x_mm3.abs().max(left.xy_mm4.abs()) < 1e-9);
        close(section.high_mm(), a / (PI / f64::from(count)).cos(), 1e-12);
        close(section.low_mm(), a, 1e-12);
        assert_eq!(section.corners_deg().len(), count as usize);
    }
}

#[test]
fn shallow_flats_leave_arcs_between_two_corners_each() {
    let section = Section::evenly(7.0, flat(6.6, 0.0), 8).unwrap();
    assert_eq!(section.high_mm(), 7.0);
    assert_eq!(section.corners_deg().len(), 16);
    close(section.radius_at_mm(45.0), 6.6, 1e-15);
    close(section.radius_at_mm(22.5), 7.0, 1e-15);
}

#[test]
fn what_cannot_be_cut_is_none_and_what_cuts_nothing_is_round() {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(Section::cut(7.0, &[flat(bad, 0.0)]), None, "{bad}");
        assert_eq!(Section::cut(bad, &[]), None, "{bad}");
    }
    let round = Section::evenly(7.0, flat(7.0, 0.0), 6).unwrap();
    assert_eq!(round, Section::cut(7.0, &[]).unwrap());
    let twice = Section::cut(7.0, &[flat(6.0, 10.0), flat(6.0, 10.0), flat(6.5, 10.0)]);
    assert_eq!(twice, Section::cut(7.0, &[flat(6.0, 10.0)]));
}

fn rod(places: &[(f64, f64)]) -> Chain {
    let places: Vec<Point> = places.iter().map(|&(z, r)| Point::new(z, r)).collect();
    Chain::polyline(Tag(0), &places).unwrap()
}

fn set(from: f64, to: f64, across: (f64, f64), count: u32) -> Flats {
    Flats {
        from_mm: from,
        to_mm: to,
        apothem: Apothem::Straight {
            from_mm: across.0 / 2.0,
            to_mm: across.1 / 2.0,
        },
        count,
        clock_deg: 0.0,
    }
}

/// ⌀14 by 70 bored 10, eight flats 13.2 across from 10 to 60: reckoned from
/// N a² tan(π/N) and π r² - N (r² acos(a/r) - a √(r² - a²)) by hand.
#[test]
fn an_octagon_on_a_tube_holds_what_its_closed_form_says() {
    let (outside, bore) = (
        rod(&[(0.0, 7.0), (70.0, 7.0)]),
        rod(&[(0.0, 5.0), (70.0, 5.0)]),
    );
    let round = Properties::between([&outside], [&bore]);
    let cut = cut_away([&outside], &[set(10.0, 60.0, (13.2, 13.2), 8)]);
    close(cut.volume_mm3, 500.489, 1e-6);
    close(round.volume_mm3 - cut.volume_mm3, 4_777.386, 1e-7);
    let one = 49.0 * (6.6_f64 / 7.0).acos() - 6.6 * (49.0_f64 - 6.6 * 6.6).sqrt();
    close(cut.volume_mm3, 50.0 * 8.0 * one, 1e-12);
    close(cut.z_mm4, cut.volume_mm3 * 35.0, 1e-12);
    let second = cut.volume_mm3 * (35.0 * 35.0 + 50.0 * 50.0 / 12.0);
    close(cut.zz_mm5, second, 1e-12);
    assert_eq!(cut.offset_mm(), Some([0.0, 0.0]));
}

/// A pyramid within a cylinder: frustum (h/3)(A + B + √AB).
#[test]
fn tapered_flats_that_meet_leave_a_frustum() {
    let outside = rod(&[(0.0, 9.0), (40.0, 9.0)]);
    let cut = cut_away([&outside], &[set(0.0, 40.0, (12.0, 8.0), 6)]);
    let area = |a: f64| 6.0 * a * a * (PI / 6.0).tan();
    let frustum = 40.0 / 3.0 * (area(6.0) + area(4.0) + (area(6.0) * area(4.0)).sqrt());
    close(81.0 * PI * 40.0 - cut.volume_mm3, frustum, 1e-12);
}

/// A plane 30° through a cylinder's edge cuts a hoof: 2/3 r² h with the plane through the axis;
/// shallower by ∫ (r² acos(a/r) - a √(r² - a²)) da = [3 r² a acos(a/r) - (2r² + a²) √(r² - a²)] / 3.
#[test]
fn a_slanted_flat_that_runs_out_cuts_a_hoof() {
    let outside = rod(&[(0.0, 6.0), (50.0, 6.0)]);
    let cut = cut_away([&outside], &[set(5.0, 35.0, (8.0, 14.0), 1)]);
    let whole =
        |a: f64| (108.0 * a * (a / 6.0).acos() - (72.0 + a * a) * (36.0 - a * a).sqrt()) / 3.0;
    let wanted = (whole(6.0) - whole(4.0)) * 30.0 / 3.0;
    close(cut.volume_mm3, wanted, 1e-11);
    assert!(cut.offset_mm().unwrap()[0] > 4.0);
}

#[test]
fn the_outlines_with_flats_lie_at_apothem_and_corner() {
    let outside = rod(&[(0.0, 7.0), (70.0, 7.0)]);
    let cut = set(10.0, 60.0, (13.2, 11.0), 6);
    let at = |chains: &[Chain], z: f64| chains[0].radii_at(z).unwrap().0;
    close(at(&cut.low(&outside, Tag(4)), 35.0), 6.05, 1e-14);
    close(
        at(&cut.high(&outside, Tag(4)), 35.0),
        (6.05 / (PI / 6.0).cos()).min(7.0),
        1e-14,
    );
    close(at(&cut.low(&outside, Tag(4)), 5.0), 7.0, 1e-15);
    let sharp = Flats {
        apothem: Apothem::Meeting,
        ..cut
    };
    close(at(&sharp.high(&outside, Tag(4)), 35.0), 7.0, 1e-9);
    close(
        at(&sharp.low(&outside, Tag(4)), 35.0),
        7.0 * (PI / 6.0).cos(),
        1e-14,
    );
    let below = Flats {
        apothem: Apothem::Below(0.5),
        count: 1,
        ..cut
    };
    close(at(&below.low(&outside, Tag(4)), 35.0), 6.5, 1e-14);
    assert_eq!(below.high(&outside, Tag(4)), [outside]);
}
