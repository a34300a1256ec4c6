//! `Curve`: one piece of a profile in the meridian plane.

mod bounds;
mod moved;

use crate::bernstein::{Poly, Roots};
use crate::homogeneous::Homogeneous;
use crate::{Arc, Cubic, Point};
pub use bounds::Bounds;

/// One piece of a profile: a line, an arc of an ellipse or a cubic, never turning back along `z`.
///
/// Only a line may be vertical (a face square to the axis). Parameters run from 0 at the start
/// to 1 at the end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Curve {
    /// A straight line: a cylinder, a cone or, where vertical, a face.
    Line(Line),
    /// Part of an axis-parallel ellipse: bead, cove, round or dome.
    Arc(Arc),
    /// A cubic Bezier curve.
    Cubic(Cubic),
}

/// A straight line; `end.z` is never before `start.z`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Where it begins.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
}

impl From<Line> for Curve {
    fn from(line: Line) -> Curve {
        Curve::Line(line)
    }
}

impl From<Arc> for Curve {
    fn from(arc: Arc) -> Curve {
        Curve::Arc(arc)
    }
}

impl From<Cubic> for Curve {
    fn from(cubic: Cubic) -> Curve {
        Curve::Cubic(cubic)
    }
}

impl Curve {
    /// A straight line between two places, given in either order along `z`.
    pub fn line(start: Point, end: Point) -> Curve {
        if end.z < start.z {
            Curve::Line(Line {
                start: end,
                end: start,
            })
        } else {
            Curve::Line(Line { start, end })
        }
    }

    /// Where it begins.
    pub fn start(&self) -> Point {
        match self {
            Curve::Line(line) => line.start,
            Curve::Arc(arc) => arc.start(),
            Curve::Cubic(cubic) => cubic.points()[0],
        }
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        match self {
            Curve::Line(line) => line.end,
            Curve::Arc(arc) => arc.end(),
            Curve::Cubic(cubic) => cubic.points()[3],
        }
    }

    /// The place at a parameter of 0..1.
    pub fn point(&self, t: f64) -> Point {
        match self {
            Curve::Line(line) => line.start.towards(line.end, t),
            Curve::Arc(arc) => arc.point(t),
            Curve::Cubic(cubic) => cubic.point(t),
        }
    }

    /// The direction of travel at a parameter (not of unit length); its `z` is never negative.
    pub fn tangent(&self, t: f64) -> Point {
        match self {
            Curve::Line(line) => line.end - line.start,
            Curve::Arc(arc) => arc.tangent(t),
            Curve::Cubic(cubic) => cubic.tangent(t),
        }
    }

    /// dr/dz at a parameter; infinite where the curve stands square to the axis.
    pub fn slope(&self, t: f64) -> f64 {
        let way = self.tangent(t);
        if way.z <= 1e-12 * way.r.abs() {
            way.r.signum() * f64::INFINITY
        } else {
            way.r / way.z
        }
    }

    /// dr/dz where a curve whose radius only grows or only falls has this radius; at its ends where
    /// it has not.
    pub fn slope_at_r(&self, r: f64) -> f64 {
        self.slope(self.param_at_r(r))
    }

    /// True for a face square to the axis, which has no length along it.
    pub fn is_vertical(&self) -> bool {
        self.start().z >= self.end().z
    }

    /// True where `z` is within the curve's length, ends counted.
    pub fn spans(&self, z: f64) -> bool {
        self.start().z <= z && z <= self.end().z
    }

    /// The parameter at `z`, clamped to the ends.
    pub fn param_at_z(&self, z: f64) -> f64 {
        if z <= self.start().z {
            return 0.0;
        }
        if z >= self.end().z {
            return 1.0;
        }
        match self {
            Curve::Line(line) => (z - line.start.z) / (line.end.z - line.start.z),
            Curve::Arc(arc) => arc.param_at_z(z),
            Curve::Cubic(cubic) => cubic.param_at_z(z),
        }
    }

    /// The radius at `z` in mm; past an end, the radius at that end.
    pub fn radius_at(&self, z: f64) -> f64 {
        self.point(self.param_at_z(z)).r
    }

    /// The parameter at radius `r` of a curve whose radius only grows or only falls, clamped.
    pub(crate) fn param_at_r(&self, r: f64) -> f64 {
        let (start, end) = (self.start().r, self.end().r);
        let part = (r - start) / (end - start);
        if part >= 1.0 {
            return 1.0;
        }
        match self {
            _ if part.is_nan() || part <= 0.0 => 0.0,
            Curve::Line(_) => part,
            Curve::Arc(arc) => arc.param_at_r(r),
            Curve::Cubic(cubic) => cubic.param_at_r(r),
        }
    }

    /// The part between two stations, clamped to the curve; none where nothing of it is between.
    pub fn between(&self, from_z: f64, to_z: f64) -> Option<Curve> {
        let (from, to) = (from_z.max(self.start().z), to_z.min(self.end().z));
        if self.is_vertical() {
            return (from <= to).then_some(*self);
        }
        if (from, to) == (self.start().z, self.end().z) {
            return Some(*self);
        }
        (from < to).then(|| {
            let (start, end) = (self.param_at_z(from), self.param_at_z(to));
            let place = |z: f64, t: f64| {
                if t <= 0.0 {
                    self.start()
                } else if t >= 1.0 {
                    self.end()
                } else {
                    Point::new(z, self.point(t).r)
                }
            };
            self.cut((start, place(from, start)), (end, place(to, end)))
        })
    }

    /// The part between two parameters, `from` below `to`.
    pub fn between_params(&self, from: f64, to: f64) -> Curve {
        if from <= 0.0 && to >= 1.0 {
            return *self;
        }
        self.cut((from, self.point(from)), (to, self.point(to)))
    }

    fn cut(&self, from: (f64, Point), to: (f64, Point)) -> Curve {
        match self {
            _ if from.0 <= 0.0 && to.0 >= 1.0 => *self,
            Curve::Line(_) => Curve::Line(Line {
                start: from.1,
                end: to.1,
            }),
            Curve::Arc(arc) => Curve::Arc(arc.between(from.1, to.1)),
            Curve::Cubic(cubic) => Curve::Cubic(cubic.between(from, to)),
        }
    }

    /// Cut wherever the radius stops growing or falling, so that each piece only grows, only
    /// falls or stays.
    pub fn monotone_pieces(&self) -> impl Iterator<Item = Curve> + use<> {
        let curve = *self;
        let turns = curve.parallel_to(Point::new(1.0, 0.0));
        let turns = turns.in_order(1e-9, 1.0 - 1e-9);
        let at = move |nth: usize| turns.as_slice().get(nth).copied();
        (0..=turns.as_slice().len()).map(move |nth| {
            let from = nth.checked_sub(1).and_then(at);
            curve.between_params(from.unwrap_or(0.0), at(nth).unwrap_or(1.0))
        })
    }

    /// The parameters where it changes the side to which it bends.
    pub(crate) fn inflections(&self) -> Roots {
        if !matches!(self, Curve::Cubic(_)) {
            return Roots::default();
        }
        let Homogeneous { z, r, .. } = self.homogeneous();
        let (z, r) = (z.derivative(), r.derivative());
        z.times(&r.derivative())
            .plus(-1.0, &r.times(&z.derivative()))
            .roots()
    }

    pub(crate) fn homogeneous(&self) -> Homogeneous {
        match self {
            Curve::Line(Line { start, end }) => Homogeneous {
                z: Poly::new(&[start.z, end.z]),
                r: Poly::new(&[start.r, end.r]),
                w: Poly::new(&[1.0]),
            },
            Curve::Arc(arc) => arc.homogeneous(),
            Curve::Cubic(cubic) => cubic.homogeneous(),
        }
    }

    /// The parameters strictly inside where the tangent is parallel to `way`; a line has none.
    pub(crate) fn parallel_to(&self, way: Point) -> Roots {
        if matches!(self, Curve::Line(_)) {
            return Roots::default();
        }
        let Homogeneous { z, r, w } = self.homogeneous();
        let across = r.scaled(way.z).plus(-way.r, &z);
        self.weighed(&across, &w).roots()
    }

    /// How a part of the place changes along the curve, times the square of the weight.
    pub(crate) fn weighed(&self, part: &Poly, weight: &Poly) -> Poly {
        let slope = part.derivative();
        match self {
            Curve::Arc(_) => slope
                .times(weight)
                .plus(-1.0, &part.times(&weight.derivative())),
            // Their weight is 1 all along.
            Curve::Line(_) | Curve::Cubic(_) => slope,
        }
    }
}

#[cfg(test)]
mod tests;
