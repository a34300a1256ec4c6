use super::*;
use crate::{Cubic, Properties};
use std::f64::consts::PI;

fn line(places: &[(f64, f64)]) -> Chain {
    let places: Vec<Point> = places.iter().map(|&(z, r)| Point::new(z, r)).collect();
    Chain::polyline(Tag(0), &places).unwrap()
}

fn places(chain: &Chain) -> Vec<(f64, f64)> {
    let round = |value: f64| (value * 1e9).round() / 1e9;
    let end = chain.segments().last().map(|piece| piece.curve.end());
    let starts = chain
        .segments()
        .iter()
        .map(|piece| piece.curve.start())
        .chain(end);
    starts
        .map(|place| (round(place.z), round(place.r)))
        .collect()
}

#[test]
fn a_chamfer_breaks_the_ends_of_a_rod_and_the_mouth_of_a_bore() {
    let half = Edge::Chamfer(Length::mm(0.5));
    let rod = line(&[(0.0, 6.0), (40.0, 6.0)]);
    let both = rod
        .with_edge(0.0, half, MetalSide::Outside, Tag(1))
        .unwrap()
        .with_edge(40.0, half, MetalSide::Outside, Tag(2))
        .unwrap();
    assert_eq!(
        places(&both),
        [(0.0, 5.5), (0.5, 6.0), (39.5, 6.0), (40.0, 5.5)]
    );
    assert_eq!(both.segments()[2].tag, Tag(2));
    let mouth = rod.with_edge(0.0, half, MetalSide::Bore, Tag(1)).unwrap();
    assert_eq!(places(&mouth), [(0.0, 6.5), (0.5, 6.0), (40.0, 6.0)]);
}

#[test]
fn at_a_step_the_corner_that_stands_out_is_broken() {
    let edge = Edge::Chamfer(Length::mm(0.3));
    let up = line(&[(0.0, 5.0), (8.0, 5.0), (8.0, 7.0), (20.0, 7.0)]);
    let wanted = [(0.0, 5.0), (8.0, 5.0), (8.0, 6.7), (8.3, 7.0), (20.0, 7.0)];
    assert_eq!(
        places(&up.with_edge(8.0, edge, MetalSide::Outside, Tag(1)).unwrap()),
        wanted
    );
    let wanted = [(0.0, 5.0), (7.7, 5.0), (8.0, 5.3), (8.0, 7.0), (20.0, 7.0)];
    assert_eq!(
        places(&up.with_edge(8.0, edge, MetalSide::Bore, Tag(1)).unwrap()),
        wanted
    );
    let down = up.reversed(20.0);
    let wanted = [
        (0.0, 7.0),
        (11.7, 7.0),
        (12.0, 6.7),
        (12.0, 5.0),
        (20.0, 5.0),
    ];
    assert_eq!(
        places(
            &down
                .with_edge(12.0, edge, MetalSide::Outside, Tag(1))
                .unwrap()
        ),
        wanted
    );
}

/// The volume is that of a cylinder with one rounded (torus) edge, in closed form.
#[test]
fn a_round_on_an_end_is_a_quarter_torus() {
    let (radius, f, height): (f64, f64, f64) = (6.0, 1.0, 10.0);
    let rod = line(&[(0.0, radius), (height, radius)]);
    let rounded = rod
        .with_edge(
            height,
            Edge::Round(Length::mm(f)),
            MetalSide::Outside,
            Tag(1),
        )
        .unwrap();
    let b = radius - f;
    let torus = b * b * f + b * f * f * PI / 2.0 + 2.0 * f.powi(3) / 3.0;
    let wanted = PI * radius * radius * (height - f) + PI * torus;
    let found = Properties::within(&rounded).volume_mm3;
    assert!((found / wanted - 1.0).abs() < 1e-12, "{found} for {wanted}");
}

#[test]
fn a_round_between_a_taper_and_a_curve_is_tangent_to_both() {
    let cubic =
        Cubic::with_slopes(Point::new(10.0, 6.0), Point::new(20.0, 3.0), -0.1, -0.6).unwrap();
    let outline = line(&[(0.0, 5.0), (10.0, 6.0)])
        .then(Tag(2), cubic)
        .unwrap();
    let rounded = outline
        .with_edge(
            10.0,
            Edge::Round(Length::mm(8.0)),
            MetalSide::Outside,
            Tag(1),
        )
        .unwrap();
    assert_eq!(rounded.segments()[1].tag, Tag(1));
    for kink in rounded.kinks() {
        assert!(kink.turn_deg.abs() < 1e-6, "{kink:?}");
    }
}

#[test]
fn what_does_not_fit_or_has_no_corner_is_refused() {
    let rod = line(&[(0.0, 6.0), (5.0, 6.0), (40.0, 6.0)]);
    let broken = |z: f64, edge: Edge| rod.with_edge(z, edge, MetalSide::Outside, Tag(1));
    assert_eq!(
        broken(5.0, Edge::Round(Length::mm(1.0))),
        Err(EdgeFlaw::NoCorner)
    );
    assert_eq!(
        broken(7.0, Edge::Round(Length::mm(1.0))),
        Err(EdgeFlaw::NoCorner)
    );
    assert_eq!(
        broken(0.0, Edge::Round(Length::mm(0.0))),
        Err(EdgeFlaw::NoCorner)
    );
    assert_eq!(
        broken(0.0, Edge::Round(Length::mm(5.5))),
        Err(EdgeFlaw::TooLarge)
    );
    assert_eq!(
        broken(0.0, Edge::Chamfer(Length::mm(1e9))),
        Err(EdgeFlaw::TooLarge)
    );
    let cone = line(&[(0.0, 6.0), (40.0, 0.0)]);
    assert!(
        cone.with_edge(
            40.0,
            Edge::Round(Length::mm(1.0)),
            MetalSide::Outside,
            Tag(1)
        )
        .is_err()
    );
}
