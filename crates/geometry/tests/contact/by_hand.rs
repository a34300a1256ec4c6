//! Rest positions by hand and in closed form.

use quillet_geometry::{Arc, Chain, Point, Tag};

use super::{joined, line, rest};

/// Tenon 8 long and 9.9 thick under a shoulder, into a mouth of 10.0: by hand.
#[test]
fn a_tenon_goes_in_to_its_shoulder_or_to_the_bottom() {
    let male = line(1, &[(0.0, 9.9), (8.0, 9.9), (8.0, 11.4), (22.0, 11.4)]);
    let female = |depth: f64| line(2, &[(0.0, 10.0), (depth, 10.0), (depth, 8.0), (50.0, 8.0)]);
    let deep = rest(&male, &female(12.0)).unwrap();
    assert_eq!((deep.travel_mm, deep.one.z, deep.other.z), (8.0, -8.0, 0.0));
    // The shoulder and the mouth share the ring from 10.0 to 11.4.
    assert!((deep.width_mm - 0.7).abs() < 1e-12);
    let shallow = rest(&male, &female(6.0)).unwrap();
    assert_eq!(
        (shallow.travel_mm, shallow.one.z, shallow.other.z),
        (6.0, 0.0, 6.0)
    );
}

#[test]
fn what_is_never_fatter_passes_and_size_on_size_passes() {
    let through = line(2, &[(0.0, 8.0), (50.0, 8.0)]);
    let rod = |from: f64, to: f64| line(1, &[(0.0, from), (90.0, to)]);
    assert_eq!(rest(&rod(7.9, 7.9), &through), None);
    assert_eq!(rest(&rod(8.0, 8.0), &through), None);
    assert_eq!(rest(&rod(8.0, 8.1), &through).unwrap().travel_mm, 0.0);
}

/// A male cone of slope tan 5° in a female one of tan 3° touches at the female's mouth, the other
/// way about at the male's front, by similar triangles.
#[test]
fn cone_in_cone_touches_where_similar_triangles_say() {
    let (steep, slow) = (5_f64.to_radians().tan(), 3_f64.to_radians().tan());
    let cone = |front: f64, slope: f64| {
        line(
            1,
            &[(0.0, 2.0 * front), (20.0, 2.0 * (front + 20.0 * slope))],
        )
    };
    let taper = |mouth: f64, slope: f64| {
        line(
            2,
            &[(0.0, 2.0 * mouth), (20.0, 2.0 * (mouth - 20.0 * slope))],
        )
    };
    let found = rest(&cone(4.0, steep), &taper(5.0, slow)).unwrap();
    assert!((found.travel_mm - 1.0 / steep).abs() < 1e-12);
    assert!((found.one.r - 5.0).abs() < 1e-12);
    let found = rest(&cone(4.5, slow), &taper(5.0, steep)).unwrap();
    assert!((found.travel_mm - 0.5 / steep).abs() < 1e-12);
    assert!((found.one.r - 4.5).abs() < 1e-12);
}

/// A ball of this radius, front at zero.
fn ball(radius: f64) -> Chain {
    let (front, back) = (Point::new(0.0, 0.0), Point::new(2.0 * radius, 0.0));
    Chain::single(
        Tag(1),
        Arc::circular(front, back, radius, true).expect("an arc"),
    )
}

/// A ball of radius R in a cone of half angle α has its centre R / sin α before the apex.
#[test]
fn a_ball_in_a_cone_rests_as_its_half_angle_says() {
    let (radius, half) = (4.0, 59_f64.to_radians());
    let apex = 12.0 + 5.0 / half.tan();
    let drilled = line(2, &[(0.0, 10.0), (12.0, 10.0), (apex, 0.0)]);
    let found = rest(&ball(radius), &drilled).unwrap();
    assert!(
        (found.travel_mm - (apex - radius / half.sin() + radius)).abs() < 1e-9,
        "{found:?}"
    );
    assert!((found.one.r - radius * half.cos()).abs() < 1e-6);
}

/// A small ball in a hollow one touches at the pole, one of the same radius everywhere; one that
/// is wider than a mouth of radius m rides on its edge, √(R² − m²) before its centre.
#[test]
fn ball_on_ball_and_ball_on_an_edge() {
    let hollow = Arc::circular(Point::new(0.0, 5.0), Point::new(5.0, 0.0), 5.0, true).unwrap();
    let hollow = Chain::single(Tag(2), hollow);
    assert!((rest(&ball(4.0), &hollow).unwrap().travel_mm - 5.0).abs() < 1e-9);
    assert!((rest(&ball(5.0), &hollow).unwrap().travel_mm - 5.0).abs() < 1e-9);
    let ring = line(3, &[(0.0, 6.0), (10.0, 6.0)]);
    let wanted = 5.0 - 16_f64.sqrt();
    assert!((rest(&ball(5.0), &ring).unwrap().travel_mm - wanted).abs() < 1e-12);
}

/// A cap's thread on a tapering barrel: where the barrel is as fat as its bore.
#[test]
fn a_cap_posts_where_the_barrel_fills_its_mouth() {
    let dome = Arc::dome(Point::new(0.0, 0.0), Point::new(6.0, 5.4)).unwrap();
    let barrel = Chain::single(Tag(1), dome)
        .then_line(Tag(2), Point::new(40.0, 6.9))
        .unwrap();
    let cap = joined(&[
        line(3, &[(0.0, 13.1), (2.5, 13.1)]),
        line(4, &[(2.5, 12.2), (54.0, 12.2)]),
    ]);
    let found = rest(&barrel, &cap).unwrap();
    let as_fat = 6.0 + (6.1 - 5.4) / 1.5 * 34.0;
    assert!((found.travel_mm - (as_fat + 2.5)).abs() < 1e-9);
}
