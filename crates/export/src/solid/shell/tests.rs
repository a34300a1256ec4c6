//! Shells of every sample under flats of every kind: closed, of the right kind, each edge on both its faces.

use super::super::outline::Body;
use super::super::samples;
use super::*;
use quillet_geometry::section::Apothem;
use quillet_geometry::{Chain, Tag};
use std::collections::BTreeMap;

/// The shells of each sample under each of its sets of flats.
fn all() -> Vec<(String, bool, Shell)> {
    let mut all = Vec::new();
    for sample in samples::all() {
        let body = sample.body();
        for (name, flats) in sample.flats() {
            for run in &body.runs {
                let name = format!("{}, {name}", sample.name);
                let shell = Shell::of(run, &flats).expect(&name);
                all.push((name, run.is_loop(), shell));
            }
        }
    }
    all
}

#[test]
fn each_edge_is_of_two_faces_once_from_either_end() {
    for (name, _, shell) in all() {
        let mut taken: BTreeMap<(usize, bool), u32> = BTreeMap::new();
        for edge in shell.faces.iter().flat_map(|it| &it.bounds).flatten() {
            *taken.entry(*edge).or_default() += 1;
        }
        assert_eq!(taken.len(), 2 * shell.edges.len(), "{name}");
        assert!(taken.values().all(|it| *it == 1), "{name}");
    }
}

/// Corners and faces are two more than edges, each hole in a face counted as an edge, where nothing goes through
/// (Euler and Poincaré); as many where one bore does.
#[test]
fn shells_have_as_many_holes_through_them_as_their_outline() {
    for (name, through, shell) in all() {
        let holes: usize = shell.faces.iter().map(|it| it.bounds.len() - 1).sum();
        let more = shell.corners.len() + shell.faces.len() - shell.edges.len() - holes;
        assert_eq!(more, if through { 0 } else { 2 }, "{name}");
    }
}

#[test]
fn every_edge_lies_on_both_faces_between_its_corners() {
    for (name, _, shell) in all() {
        for face in &shell.faces {
            for (edge, _) in face.bounds.iter().flatten() {
                let rim = &shell.edges[*edge];
                let places = places(&shell, rim);
                for at in &places {
                    let off = off_mm(&face.surface, *at);
                    assert!(off < 3e-5, "{name}: {off} off {:?}", face.surface);
                }
                let ends = [places[0], places[places.len() - 1]];
                for (end, at) in rim.ends.iter().zip(ends) {
                    let off = far_mm(shell.corners[*end], at);
                    assert!(off < 3e-5, "{name}: {off} from its corner, {rim:?}");
                }
            }
        }
    }
}

/// A tube of eight flats: two ends, a bore and two necks, two rings between necks and flats, and between the
/// flats nothing where they meet.
#[test]
fn flats_on_a_tube_are_planes_between_lines() {
    for (apothem, rounds) in [(6.6, 8), (6.4, 0)] {
        let flats = octagon(apothem);
        let shell = Shell::of(&tube().runs[0], &[flats]).expect("a shell");
        let planes = shell.faces.iter();
        let planes = planes.filter(|it| matches!(it.surface, FaceSurface::Plane(_)));
        assert_eq!(planes.count(), 8);
        let turned = shell.faces.iter();
        let turned = turned.filter(|it| matches!(it.surface, FaceSurface::Turned(..)));
        assert_eq!(turned.count(), 3 + rounds);
        let mut curves = shell.edges.iter();
        assert!(curves.all(|it| !matches!(it.curve, RimCurve::Spline(_))));
    }
}

#[test]
fn what_no_flat_reaches_is_as_it_was_turned() {
    let shell = Shell::of(&tube().runs[0], &[octagon(7.0)]).expect("a shell");
    assert_eq!(shell.faces.len(), 4);
}

#[test]
fn a_flat_that_reaches_the_axis_leaves_no_shell() {
    let flats = Flats {
        apothem: Apothem::Below(7.0),
        ..octagon(1.0)
    };
    assert!(Shell::of(&tube().runs[0], &[flats]).is_none());
}

/// At an end where the bore is open and wider than the flats.
#[test]
fn a_flat_that_reaches_the_bore_leaves_no_shell() {
    let flats = Flats {
        from_mm: 0.0,
        ..octagon(4.9)
    };
    assert!(Shell::of(&tube().runs[0], &[flats]).is_none());
}

/// Half a millimetre of it, between all places at which the bore is looked at.
#[test]
fn a_bore_that_a_narrow_groove_opens_leaves_no_body() {
    let groove = [
        (0.0, 7.0),
        (41.0, 7.0),
        (41.0, 4.9),
        (41.5, 4.9),
        (41.5, 7.0),
        (70.0, 7.0),
    ];
    let places = groove.map(|(z, r)| Point::new(z, r));
    let outer = Chain::polyline(Tag(0), &places).expect("a line");
    let broken = Body::new("tube", &outer, &[line(5.0)]).expect_err("an opening");
    assert!((41.0..=41.5).contains(&broken.z_mm), "{broken:?}");
}

/// ⌀14, bored ⌀10 through.
fn tube() -> Body {
    Body::new("tube", &line(7.0), &[line(5.0)]).expect("a tube")
}

fn line(r: f64) -> Chain {
    Chain::polyline(Tag(0), &[Point::new(0.0, r), Point::new(70.0, r)]).expect("a line")
}

fn octagon(apothem: f64) -> Flats {
    Flats {
        from_mm: 10.0,
        to_mm: 60.0,
        apothem: Apothem::Straight {
            from_mm: apothem,
            to_mm: apothem,
        },
        count: 8,
        clock_deg: 22.5,
    }
}

/// Places along an edge.
fn places(shell: &Shell, rim: &Rim) -> Vec<[f64; 3]> {
    let [from, to] = rim.ends.map(|it| shell.corners[it]);
    let shares = (0..=16).map(|it| f64::from(it) / 16.0);
    match &rim.curve {
        RimCurve::Line => shares
            .map(|share| [0, 1, 2].map(|it| from[it] + (to[it] - from[it]) * share))
            .collect(),
        RimCurve::Round(place) => {
            let angle = |at: [f64; 3]| at[1].atan2(at[0]);
            let mut turn = (angle(to) - angle(from)).rem_euclid(std::f64::consts::TAU);
            if rim.ends[0] == rim.ends[1] {
                turn = std::f64::consts::TAU;
            }
            let at = |share: f64| {
                let (sin, cos) = (angle(from) + turn * share).sin_cos();
                [place.r * cos, place.r * sin, place.z]
            };
            shares.map(at).collect()
        }
        RimCurve::Seam(edge, way) => shares
            .map(|share| edge.point(share))
            .map(|it| [it.r * way.cos(), it.r * way.sin(), it.z])
            .collect(),
        RimCurve::Spline(spline) => along(spline),
    }
}

/// Places of a B-spline all of whose knots are as often there as it is differentiable: Bézier curves that share
/// their ends, or of which each cubic begins with the speed of the last.
fn along(spline: &Spline) -> Vec<[f64; 3]> {
    let weight = |at: usize| spline.weights.get(at).copied().unwrap_or(1.0);
    let mut all = Vec::new();
    for piece in 0..spline.knots.len() - 1 {
        let controls: Vec<[f64; 4]> = if spline.knots.len() == 2 {
            let each = spline.places.iter().enumerate();
            each.map(|(at, [x, y, z])| {
                let w = weight(at);
                [x * w, y * w, z * w, w]
            })
            .collect()
        } else {
            joined(spline, piece)
        };
        for share in (0..=8).map(|it| f64::from(it) / 8.0) {
            let [x, y, z, w] = casteljau(controls.clone(), share);
            all.push([x / w, y / w, z / w]);
        }
    }
    all
}

/// The control points of a piece of a cubic with double knots: where two pieces meet lies between the control
/// points beside, as the lengths of the pieces.
fn joined(spline: &Spline, piece: usize) -> Vec<[f64; 4]> {
    let knot = |at: usize| spline.knots[at].0;
    let [b, c] = [1, 2].map(|it| spline.places[2 * piece + it]);
    let end = |at: usize| {
        if at == 0 {
            return spline.places[0];
        }
        if at == spline.knots.len() - 1 {
            return spline.places[spline.places.len() - 1];
        }
        let [before, behind] = [knot(at) - knot(at - 1), knot(at + 1) - knot(at)];
        let share = before / (before + behind);
        let [one, other] = [2 * at, 2 * at + 1].map(|it| spline.places[it]);
        [0, 1, 2].map(|it| one[it] + (other[it] - one[it]) * share)
    };
    let all = [end(piece), b, c, end(piece + 1)];
    all.map(|[x, y, z]| [x, y, z, 1.0]).to_vec()
}

fn casteljau(mut controls: Vec<[f64; 4]>, share: f64) -> [f64; 4] {
    while controls.len() > 1 {
        let pairs = controls.windows(2);
        let between = |pair: &[[f64; 4]]| {
            [0, 1, 2, 3].map(|it| pair[0][it] + (pair[1][it] - pair[0][it]) * share)
        };
        controls = pairs.map(between).collect();
    }
    controls[0]
}

/// From a place to a surface, mm.
fn off_mm(surface: &FaceSurface, at: [f64; 3]) -> f64 {
    let [x, y, z] = at;
    match surface {
        FaceSurface::Turned(edge, _) => nearest_mm(edge, Point::new(z, x.hypot(y))),
        FaceSurface::Square(station, _) => (z - station).abs(),
        FaceSurface::Plane([on, out, _]) => {
            let off = (0..3).map(|it| (at[it] - on[it]) * out[it]);
            off.sum::<f64>().abs()
        }
        FaceSurface::Ruled(curve, way) => {
            // Along the curve's own plane, the nearest of many places and between it and the next.
            let dot = |one: [f64; 3], other: [f64; 3]| -> f64 {
                (0..3).map(|it| one[it] * other[it]).sum()
            };
            let flat = |at: [f64; 3]| {
                let along = dot(at, *way);
                [0, 1, 2].map(|it| at[it] - way[it] * along)
            };
            let controls: Vec<[f64; 4]> = (0..curve.places.len())
                .map(|at| {
                    let w = curve.weights.get(at).copied().unwrap_or(1.0);
                    let [x, y, z] = curve.places[at];
                    [x * w, y * w, z * w, w]
                })
                .collect();
            let on = |share: f64| {
                let [x, y, z, w] = casteljau(controls.clone(), share);
                [x / w, y / w, z / w]
            };
            let (mut low, mut high) = (0.0, 1.0);
            for _ in 0..50 {
                let middle: f64 = (low + high) / 2.0;
                if on(middle)[2] < z {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            far_mm(flat(at), flat(on(low)))
        }
    }
}

fn far_mm(one: [f64; 3], other: [f64; 3]) -> f64 {
    let square = (0..3).map(|it| (one[it] - other[it]).powi(2));
    square.sum::<f64>().sqrt()
}

/// From a place to an edge of the outline, mm: the nearest of many, and ever nearer about that.
fn nearest_mm(edge: &Edge, at: Point) -> f64 {
    let (mut middle, mut reach) = (0.5, 0.5);
    let off = |t: f64| edge.point(t).distance(at);
    while reach > 1e-9 {
        let place = |it: i32| middle + reach * f64::from(it) / 20.0;
        let places = (-20..=20).map(|it| place(it).clamp(0.0, 1.0));
        middle = places
            .min_by(|a, b| off(*a).total_cmp(&off(*b)))
            .expect("many");
        reach /= 8.0;
    }
    off(middle)
}
