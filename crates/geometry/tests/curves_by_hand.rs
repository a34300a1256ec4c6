//! Curves whose figures follow from their control points by hand.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_geometry::envelope::greatest;
use quillet_geometry::walls::walls;
use quillet_geometry::{
    Chain, Cubic, Curve, Edge, Length, Mass, MetalSide, Point, Properties, Segment, Shape, Station,
    Tag, outside,
};

fn cubic(places: [(f64, f64); 4]) -> Curve {
    let points = places.map(|(z, r)| Point::new(z, r));
    Curve::from(Cubic::new(points).unwrap())
}

fn near(found: f64, wanted: f64, within: f64) {
    let apart = (found - wanted).abs();
    assert!(apart < within, "{found} where {wanted} was wanted");
}

/// Where the greatest of a few curves goes over from one to the next.
fn changes(curves: &[Curve]) -> Vec<f64> {
    let tags = (1..).map(Tag);
    let chains: Vec<Chain> = tags
        .zip(curves)
        .map(|(tag, curve)| Chain::single(tag, *curve))
        .collect();
    let found = greatest(&chains, 0.0, 10.0);
    assert_eq!(found.len(), 1);
    let pieces = found[0].segments();
    pieces[1..].iter().map(|it| it.curve.start().z).collect()
}

/// r = 4 + 2t is 5 at t = 1/2, and there z = (3·1 + 3·3 + 10)/8 = 2.75.
#[test]
fn two_cubics_of_which_neither_is_a_graph_cross_once() {
    let rising = [
        (0.0, 4.0),
        (1.0, 14.0 / 3.0),
        (3.0, 16.0 / 3.0),
        (10.0, 6.0),
    ];
    let level = [(0.0, 5.0), (2.0, 5.0), (9.0, 5.0), (10.0, 5.0)];
    let found = changes(&[cubic(rising), cubic(level)]);
    assert_eq!(found.len(), 1, "{found:?}");
    near(found[0], 2.75, 1e-9);
}

/// r − 5 = 40(t − 0.502)(t − 0.508), in Bernstein's form: two crossings 0.06 mm apart of 10.
#[test]
fn two_graphs_may_cross_twice_within_a_hair() {
    let (square, linear, fixed) = (40.0, -40.0 * 1.010, 40.0 * 0.502 * 0.508);
    let heights = [
        fixed,
        fixed + linear / 3.0,
        fixed + 2.0 * linear / 3.0 + square / 3.0,
        fixed + linear + square,
    ];
    let stations = [0.0, 10.0 / 3.0, 20.0 / 3.0, 10.0];
    let place = |at: usize| (stations[at], 5.0 + heights[at]);
    let dips = cubic([place(0), place(1), place(2), place(3)]);
    let level = cubic(stations.map(|z| (z, 5.0)));
    let found = changes(&[dips, level]);
    assert_eq!(found.len(), 2, "{found:?}");
    near(found[0], 5.02, 1e-9);
    near(found[1], 5.08, 1e-9);
}

/// Where two control points are one the curve stands still, and sets out along its chord.
#[test]
fn a_curve_that_stands_still_has_a_tangent() {
    let curve = cubic([(0.0, 4.0), (0.0, 4.0), (0.0, 4.0), (6.0, 7.0)]);
    let way = curve.tangent(0.0);
    assert_eq!((way.z, way.r), (6.0, 3.0));
}

/// A chamfer of 1 mm begins a straight millimetre from the corner, on a curve as well.
#[test]
fn a_chamfer_on_a_curve_is_as_far_from_the_corner_as_on_a_line() {
    let curve = cubic([(0.0, 4.0), (2.0, 4.0), (4.0, 5.0), (6.0, 8.0)]);
    let corner = Point::new(6.0, 8.0);
    let chain = Chain::single(Tag(1), curve)
        .then_line(Tag(2), Point::new(12.0, 8.0))
        .unwrap();
    let edge = Edge::Chamfer(Length::from_nm(1_000_000));
    let broken = chain
        .with_edge(6.0, edge, MetalSide::Outside, Tag(3))
        .unwrap();
    let cut = broken
        .segments()
        .iter()
        .find(|it| it.tag == Tag(3))
        .unwrap();
    near(cut.curve.start().distance(corner), 1.0, 1e-9);
    near(cut.curve.end().distance(corner), 1.0, 1e-9);
}

/// A rod of ⌀10 and 20: 3 g of it lie amid it and turn about the axis with m·r²/2; what has no
/// volume is a point.
#[test]
fn a_body_that_weighs_so_much() {
    let rod = Chain::polyline(Tag(1), &[Point::new(0.0, 5.0), Point::new(20.0, 5.0)]).unwrap();
    let body = Properties::between([&rod], &[]).of_mass(3.0);
    near(body.mass_g, 3.0, 1e-12);
    near(body.centre_mm, 10.0, 1e-12);
    near(body.axial_g_mm2, 3.0 * 25.0 / 2.0, 1e-9);
    let nothing = Properties::between([&rod], std::slice::from_ref(&rod)).of_mass(3.0);
    assert_eq!(nothing, Mass::at(3.0, nothing.centre_mm));
}

/// A smooth run that sets out from a step goes on to the next station; with one span and nothing
/// beside it, straight.
#[test]
fn a_smooth_run_sets_out_from_a_step() {
    let mm = |mm: i64| Length::from_nm(mm * 1_000_000);
    let station = |at: i64, (arrives, leaves): (i64, i64), shape: Shape| Station {
        at: mm(at),
        arrives: mm(arrives),
        leaves: mm(leaves),
        shape,
        edge: None,
        tag: Tag(1),
        edge_tag: Tag(2),
    };
    let drawn = outside(&[
        station(0, (12, 12), Shape::Straight),
        station(5, (12, 10), Shape::Straight),
        station(15, (14, 14), Shape::Smooth),
    ]);
    assert!(drawn.flaws.is_empty());
    near(drawn.chain.unwrap().radii_at(10.0).unwrap().0, 6.0, 1e-9);
}

/// r = 5 + ((z − 3.3)/5)² over a bore of ⌀8 is nearest at 3.3, by just 1 mm; in Bernstein's form.
#[test]
fn a_wall_is_least_where_the_curve_turns() {
    let (square, linear, fixed) = (4.0, -2.0 * 3.3 * 10.0 / 25.0, 5.0 + 3.3 * 3.3 / 25.0);
    let outside = cubic([
        (0.0, fixed),
        (10.0 / 3.0, fixed + linear / 3.0),
        (20.0 / 3.0, fixed + 2.0 * linear / 3.0 + square / 3.0),
        (10.0, fixed + linear + square),
    ]);
    let bore = Curve::line(Point::new(0.0, 4.0), Point::new(10.0, 4.0));
    let chains = [Chain::single(Tag(1), outside), Chain::single(Tag(2), bore)];
    let found = walls(&chains[..1], &chains[1..], |_, _| true);
    assert_eq!(found.len(), 1);
    near(found[0].least_mm, 1.0, 1e-9);
    near(found[0].outer_at.z, 3.3, 1e-4);
}

/// 29.99994 − 7.999984 is 21.999956, and a few units of the last place less in floating point: the
/// step there is met from either sum.
#[test]
fn a_step_is_met_at_the_sum_of_other_stations() {
    let [relief, face, grip] = [
        [(10.0, 4.5), (29.99994 - 7.999984, 4.5)],
        [(29.99994 - 7.999984, 4.5), (29.99994 - 7.999984, 5.7)],
        [(29.99994 - 7.999984, 5.7), (29.99994, 5.7)],
    ]
    .map(|ends| ends.map(|(z, r)| Point::new(z, r)))
    .map(|[start, end]| Curve::line(start, end));
    let pieces = [relief, face, grip].map(|curve| Segment { curve, tag: Tag(1) });
    let chain = Chain::new(pieces).unwrap();
    assert_ne!(29.99994 - 7.999984, 21.999956);
    assert_eq!(chain.radii_at(21.999956), Some((4.5, 5.7)));
    assert_eq!(chain.radii_at(21.999955), Some((4.5, 4.5)));
    assert_eq!(chain.radii_at(21.999957), Some((5.7, 5.7)));
}
