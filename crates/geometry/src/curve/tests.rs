use super::*;
use proptest::prelude::*;

/// Lines, convex and concave arcs of circles and ellipses, domes and cubics over z = 3..13.
fn curves() -> impl Strategy<Value = Curve> {
    let ends =
        (0.0..20.0_f64, 0.0..20.0_f64).prop_map(|(a, b)| (Point::new(3.0, a), Point::new(13.0, b)));
    (ends, 0..4, -2.0..2.0_f64, -2.0..2.0_f64, any::<bool>()).prop_filter_map(
        "an arc that can be made",
        |((start, end), kind, one, two, convex)| match kind {
            0 => Some(Curve::line(start, end)),
            1 => {
                Arc::new(start, end, 10.0 * (one + 3.0), 10.0 * (two + 3.0), convex).map(Curve::Arc)
            }
            2 => Arc::dome(start, end).map(Curve::Arc),
            _ => Cubic::with_slopes(start, end, one, two).map(Curve::Cubic),
        },
    )
}

proptest! {
    #[test]
    fn radius_and_parameter_agree(curve in curves(), t in 0.0..1.0_f64) {
        let place = curve.point(t);
        // Where the curve stands square to the axis, z fixes the radius to half the digits only.
        let steep = curve.slope(t).abs().min(1e7);
        let found = curve.radius_at(place.z);
        prop_assert!((found - place.r).abs() < 1e-13 * (1.0 + steep) * 20.0, "{found} for {}", place.r);
    }

    #[test]
    fn arcs_lie_on_their_ellipse(curve in curves(), t in 0.0..1.0_f64) {
        if let Curve::Arc(arc) = curve {
            let from = arc.point(t) - arc.centre();
            let one = (from.z / arc.semi_z_mm()).powi(2) + (from.r / arc.semi_r_mm()).powi(2);
            prop_assert!((one - 1.0).abs() < 1e-12 * (1.0 + 1.0 / arc.semi_r_mm()), "{one}");
            prop_assert!(arc.has_side_of(arc.point(t)));
            let swept = arc.swept();
            let step = swept.step(arc.point(t));
            prop_assert!(step.cross(arc.tangent(t)).abs() < 1e-9 * step.norm() * arc.tangent(t).norm());
            prop_assert!(swept.param(0.0).abs() < 1e-12 && (swept.param(1.0) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn parts_images_and_pieces_lie_on_the_curve(curve in curves(), a in 3.0..13.0_f64, b in 3.0..13.0_f64, z in 3.0..13.0_f64) {
        let near = |found: f64, z: f64| {
            let t = curve.param_at_z(z);
            (found - curve.radius_at(z)).abs() < 1e-11 * (1.0 + curve.slope(t).abs().min(1e6))
        };
        if let Some(part) = curve.between(a, b) {
            let inside = z.clamp(a, b);
            prop_assert!(part.start().z == a && part.end().z == b);
            prop_assert!(near(part.radius_at(inside), inside));
        }
        prop_assert!(near(curve.reversed(20.0).radius_at(20.0 - z), z));
        prop_assert!(near(curve.moved(5.0).radius_at(5.0 + z), z));
        let bounds = curve.bounds();
        prop_assert!(curve.radius_at(z) >= bounds.min.r - 1e-9 && curve.radius_at(z) <= bounds.max.r + 1e-9);
        for piece in curve.monotone_pieces() {
            let r = piece.point(0.3).r;
            prop_assert!((piece.point(piece.param_at_r(r)).r - r).abs() < 1e-9);
            let ends = (piece.start().r.min(piece.end().r), piece.start().r.max(piece.end().r));
            prop_assert!(r >= ends.0 - 1e-9 && r <= ends.1 + 1e-9);
        }
    }
}

#[test]
fn a_huge_radius_costs_no_digits() {
    let (start, end) = (Point::new(0.0, 7.0), Point::new(60.0, 7.0));
    let arc = Curve::Arc(Arc::circular(start, end, 1e7, true).unwrap());
    // The sagitta c² / 8R of a flat arc.
    let rise = arc.radius_at(30.0) - 7.0;
    assert!((rise - 3600.0 / 8e7).abs() < 1e-12, "{rise}");
}

#[test]
fn a_dome_stands_square_at_its_pole() {
    let dome = Curve::Arc(Arc::dome(Point::new(76.0, 5.4), Point::new(82.0, 0.0)).unwrap());
    assert!(dome.slope(0.0).abs() < 1e-15);
    assert_eq!(dome.slope(1.0), f64::NEG_INFINITY);
    assert_eq!(dome.end(), Point::new(82.0, 0.0));
    assert_eq!(dome.radius_at(82.0), 0.0);
}

#[test]
fn what_would_turn_back_is_refused() {
    let at = Point::new;
    assert!(Arc::circular(at(0.0, 0.0), at(10.0, 0.0), 4.9, true).is_none());
    assert!(Arc::circular(at(0.0, 5.0), at(1.0, 8.0), 1.7, true).is_none());
    assert!(Cubic::new([at(0.0, 1.0), at(12.0, 1.0), at(-2.0, 1.0), at(10.0, 1.0)]).is_none());
    assert!(Cubic::new([at(5.0, 1.0), at(4.0, 1.0), at(3.0, 1.0), at(2.0, 1.0)]).is_none());
}
