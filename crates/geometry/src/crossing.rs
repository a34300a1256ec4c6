//! Where two graphs r(z) cross.

use crate::bernstein::Roots;
use crate::{Curve, Line, Point};

/// The stations strictly inside both curves where their radii are the same and change places, in
/// order, mm. Where two coincide there are none.
pub(crate) fn crossings(a: &Curve, b: &Curve) -> Vec<f64> {
    let (from, to) = (a.start().z.max(b.start().z), a.end().z.min(b.end().z));
    if to <= from || apart(a, b) {
        return Vec::new();
    }
    let mut stations = match (a, b) {
        (Curve::Line(line), other) | (other, Curve::Line(line)) => on_line(line, other),
        (Curve::Arc(arc), other) | (other, Curve::Arc(arc)) => {
            let along = other.homogeneous();
            stations(other, arc.implicit(&along).roots(), |place| {
                arc.has_side_of(place)
            })
        }
        (Curve::Cubic(one), Curve::Cubic(two)) if one.is_graph() && two.is_graph() => {
            cubic_graphs(a, b, from, to)
        }
        (Curve::Cubic(_), Curve::Cubic(_)) => sampled(a, b, from, to),
    };
    stations.retain(|z| from < *z && *z < to);
    stations.sort_by(f64::total_cmp);
    stations
}

fn apart(a: &Curve, b: &Curve) -> bool {
    let (a, b) = (a.hull(), b.hull());
    a.min.r > b.max.r || b.min.r > a.max.r
}

fn on_line(line: &Line, other: &Curve) -> Vec<f64> {
    let way = line.end - line.start;
    if let Curve::Line(second) = other {
        let turn = way.cross(second.end - second.start);
        let part = (second.start - line.start).cross(second.end - second.start) / turn;
        return if turn == 0.0 {
            Vec::new()
        } else {
            vec![line.start.z + way.z * part]
        };
    }
    stations(other, where_it_crosses(other, line), |_| true)
}

/// The parameters strictly inside a curve where it crosses a line, however far that is drawn on.
pub(crate) fn where_it_crosses(curve: &Curve, line: &Line) -> Roots {
    let way = line.end - line.start;
    // Twice the area between the line and a place, over the place's weight.
    let along = curve.homogeneous();
    let side = along.r.scaled(way.z).plus(-way.r, &along.z);
    side.plus(-way.cross(line.start), &along.w).roots()
}

fn stations(curve: &Curve, roots: Roots, keep: impl Fn(Point) -> bool) -> Vec<f64> {
    roots
        .as_slice()
        .iter()
        .map(|t| curve.point(*t))
        .filter(|place| keep(*place))
        .map(|place| place.z)
        .collect()
}

/// Two cubics r(z) over one stretch differ by a cubic.
fn cubic_graphs(a: &Curve, b: &Curve, from: f64, to: f64) -> Vec<f64> {
    let (Some(a), Some(b)) = (a.between(from, to), b.between(from, to)) else {
        return Vec::new();
    };
    let roots = a.homogeneous().r.plus(-1.0, &b.homogeneous().r).roots();
    roots
        .as_slice()
        .iter()
        .map(|t| from + (to - from) * t)
        .collect()
}

/// For two cubics of which one is no graph of a cubic, which no outside in the language makes:
/// changes of sign between a hundred stations, each halved to its root.
fn sampled(a: &Curve, b: &Curve, from: f64, to: f64) -> Vec<f64> {
    let gap = |z: f64| a.radius_at(z) - b.radius_at(z);
    let station = |at: i32| from + (to - from) * f64::from(at) / 100.0;
    let mut found = Vec::new();
    for at in 0..100 {
        let (mut low, mut high) = (station(at), station(at + 1));
        let rising = gap(low) < 0.0;
        if rising == (gap(high) < 0.0) {
            continue;
        }
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if rising == (gap(middle) < 0.0) {
                low = middle
            } else {
                high = middle
            }
        }
        found.push((low + high) / 2.0);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Arc, Cubic};
    use proptest::prelude::*;

    fn curves() -> impl Strategy<Value = Curve> {
        (
            0..3,
            1.0..9.0_f64,
            1.0..9.0_f64,
            -2.0..2.0_f64,
            -2.0..2.0_f64,
        )
            .prop_filter_map("an arc that can be made", |(kind, a, b, one, two)| {
                let (start, end) = (Point::new(0.0, a), Point::new(10.0, b));
                match kind {
                    0 => Some(Curve::line(start, end)),
                    1 => {
                        Arc::new(start, end, 6.0 + two.abs(), 8.0 + one, one > 0.0).map(Curve::Arc)
                    }
                    _ => Cubic::with_slopes(start, end, one, two).map(Curve::Cubic),
                }
            })
    }

    proptest! {
        #[test]
        fn between_crossings_the_same_curve_is_outside(a in curves(), b in curves(), part in 0.001..0.999_f64) {
            let found = crossings(&a, &b);
            let mut stations = vec![0.0];
            stations.extend(&found);
            stations.push(10.0);
            let gap = |z: f64| a.radius_at(z) - b.radius_at(z);
            for z in &found {
                prop_assert!(gap(*z).abs() < 1e-9, "{a:?} {b:?} at {z}: {}", gap(*z));
            }
            for pair in stations.windows(2) {
                let (middle, inside) = ((pair[0] + pair[1]) / 2.0, pair[0] + (pair[1] - pair[0]) * part);
                prop_assert!(gap(middle) * gap(inside) > -1e-12, "{a:?} {b:?}: {stations:?}");
            }
        }
    }

    #[test]
    fn one_curve_does_not_cross_itself() {
        let smooth = Curve::Cubic(
            Cubic::with_slopes(Point::new(0.0, 7.0), Point::new(9.0, 6.0), 0.1, 0.0).unwrap(),
        );
        let dome = Curve::Arc(Arc::dome(Point::new(0.0, 7.0), Point::new(9.0, 0.0)).unwrap());
        assert_eq!(crossings(&smooth, &smooth), Vec::<f64>::new());
        assert_eq!(crossings(&dome, &dome), Vec::<f64>::new());
    }
}
