//! `Cubic`: a cubic Bezier curve in the meridian plane.

use crate::Point;
use crate::bernstein::Poly;
use crate::homogeneous::Homogeneous;

/// A cubic Bezier curve that never turns back along `z`.
///
/// With control points equally spaced in `z` it is the graph of a cubic r(z).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cubic {
    points: [Point; 4],
}

impl Cubic {
    /// From its four control points; none where it would turn back along `z`.
    pub fn new(points: [Point; 4]) -> Option<Cubic> {
        let [a, b, c, d] = points.map(|point| point.z);
        if d <= a {
            return None;
        }
        // dz/dt is a quadratic in Bernstein form: never negative iff its ends are not and its
        // middle coefficient does not outweigh them.
        let (first, middle, last) = (b - a, c - b, d - c);
        let slack = 1e-12 * (d - a);
        let runs_on = first >= -slack
            && last >= -slack
            && middle >= -(first.max(0.0) * last.max(0.0)).sqrt() - slack;
        runs_on.then_some(Cubic { points })
    }

    /// The cubic r(z) with these slopes dr/dz at its ends; none unless `end` is past `start`.
    pub fn with_slopes(
        start: Point,
        end: Point,
        start_slope: f64,
        end_slope: f64,
    ) -> Option<Cubic> {
        let third = (end.z - start.z) / 3.0;
        let points = [
            start,
            Point::new(start.z + third, start.r + start_slope * third),
            Point::new(end.z - third, end.r - end_slope * third),
            end,
        ];
        (third > 0.0).then_some(Cubic { points })
    }

    /// Its four control points, in order of `z` at the ends.
    pub fn points(&self) -> [Point; 4] {
        self.points
    }

    fn z(&self) -> Poly {
        Poly::new(&self.points.map(|point| point.z))
    }

    fn r(&self) -> Poly {
        Poly::new(&self.points.map(|point| point.r))
    }

    pub(crate) fn homogeneous(&self) -> Homogeneous {
        Homogeneous {
            z: self.z(),
            r: self.r(),
            w: Poly::new(&[1.0]),
        }
    }

    pub(crate) fn point(&self, t: f64) -> Point {
        if t >= 1.0 {
            return self.points[3];
        }
        let [a, b, c, d] = self.points;
        let (ab, bc, cd) = (a.towards(b, t), b.towards(c, t), c.towards(d, t));
        let (abc, bcd) = (ab.towards(bc, t), bc.towards(cd, t));
        abc.towards(bcd, t)
    }

    /// The step of the place per unit of the parameter; never against `z`.
    pub(crate) fn tangent(&self, t: f64) -> Point {
        let [a, b, c, d] = self.points;
        let (first, middle, last) = (b - a, c - b, d - c);
        let step = first.towards(middle, t).towards(middle.towards(last, t), t) * 3.0;
        if step.norm() > 0.0 {
            Point::new(step.z.max(0.0), step.r)
        } else {
            d - a
        }
    }

    pub(crate) fn is_graph(&self) -> bool {
        let [a, b, c, d] = self.points.map(|point| point.z);
        let slack = 1e-9 * (d - a);
        ((b - a) - (c - b)).abs() <= slack && ((d - c) - (c - b)).abs() <= slack
    }

    pub(crate) fn param_at_z(&self, z: f64) -> f64 {
        let (start, end) = (self.points[0].z, self.points[3].z);
        // Of the graph of r(z), the place along it is the parameter.
        let along = (z - start) / (end - start);
        match (self.point(along).z - z).abs() <= f64::EPSILON * end.abs().max(start.abs()) {
            true => along,
            false => solve(&self.z(), z),
        }
    }

    /// For a curve whose radius only grows or only falls.
    pub(crate) fn param_at_r(&self, r: f64) -> f64 {
        solve(&self.r(), r)
    }

    /// Cut at two parameters, with the given places as its ends.
    pub(crate) fn between(&self, (from, start): (f64, Point), (to, end): (f64, Point)) -> Cubic {
        // The blossom of the curve at mixed arguments gives the inner control points.
        let blossom = |u: f64, v: f64, w: f64| {
            let [a, b, c, d] = self.points;
            let (ab, bc, cd) = (a.towards(b, u), b.towards(c, u), c.towards(d, u));
            ab.towards(bc, v).towards(bc.towards(cd, v), w)
        };
        Cubic {
            points: [start, blossom(from, from, to), blossom(from, to, to), end],
        }
    }

    pub(crate) fn moved(&self, dz: f64) -> Cubic {
        Cubic {
            points: self.points.map(|point| point + Point::new(dz, 0.0)),
        }
    }

    pub(crate) fn reversed(&self, about: f64) -> Cubic {
        let [a, b, c, d] = self.points.map(|point| point.reversed(about));
        Cubic {
            points: [d, c, b, a],
        }
    }
}

/// The parameter where a polynomial that only grows or only falls takes a value.
fn solve(poly: &Poly, value: f64) -> f64 {
    let (start, end) = (poly.eval(0.0), poly.eval(1.0));
    let part = (value - start) / (end - start);
    poly.less(value).root_between_ends(part)
}
