//! `Arc`: part of an ellipse whose axes run along and across the axis of the pen.

use crate::Point;
use crate::bernstein::Poly;
use crate::homogeneous::Homogeneous;

/// Part of an ellipse with one half axis along the pen and one across it: a circle's arc (bead,
/// cove, round), a quarter ellipse (dome). It runs with `z` and stays on one side of its centre.
///
/// Held by its ends, its half axes and its side, and worked as a rational quadratic Bezier curve
/// (Farin, "Curves and Surfaces for CAGD", on conics), which stays exact for large radii where a
/// far centre would cost digits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    start: Point,
    end: Point,
    semi: Point,
    convex: bool,
    /// The middle control point times its weight, less the start times the weight.
    lift: Point,
    /// The weight of the middle control point: the cosine of half the angle swept.
    weight: f64,
    /// The tangent of a quarter of the angle swept.
    quarter: f64,
}

impl Arc {
    /// From `start` to `end` on an ellipse of half axes `semi_z_mm` and `semi_r_mm`; `convex`
    /// bulges away from the axis.
    ///
    /// None where no such arc runs from one to the other without turning back along `z`.
    pub fn new(
        start: Point,
        end: Point,
        semi_z_mm: f64,
        semi_r_mm: f64,
        convex: bool,
    ) -> Option<Arc> {
        if !(end.z > start.z && semi_z_mm > 0.0 && semi_r_mm > 0.0) {
            return None;
        }
        let arc = Arc::unchecked(start, end, Point::new(semi_z_mm, semi_r_mm), convex);
        let chord = Point::new((end.z - start.z) / semi_z_mm, (end.r - start.r) / semi_r_mm).norm();
        let side = if convex { 1.0 } else { -1.0 };
        let rise = |end: Point| side * (end.r - arc.centre().r) / semi_r_mm;
        let kept = chord <= 2.0 + 1e-9 && rise(start) >= -1e-9 && rise(end) >= -1e-9;
        kept.then_some(arc)
    }

    /// An arc of a circle of this radius; none as for [`Arc::new`].
    pub fn circular(start: Point, end: Point, radius_mm: f64, convex: bool) -> Option<Arc> {
        Arc::new(start, end, radius_mm, radius_mm, convex)
    }

    /// A quarter ellipse: along the axis at the larger radius, square to it at the smaller.
    ///
    /// None where both radii are the same.
    pub fn dome(start: Point, end: Point) -> Option<Arc> {
        Arc::new(start, end, end.z - start.z, (end.r - start.r).abs(), true)
    }

    fn unchecked(start: Point, end: Point, semi: Point, convex: bool) -> Arc {
        let side = if convex { 1.0 } else { -1.0 };
        let chord = Point::new((end.z - start.z) / semi.z, (end.r - start.r) / semi.r);
        let length = chord.norm();
        let half_sine = (length / 2.0).min(1.0);
        let weight = ((1.0 - half_sine) * (1.0 + half_sine)).sqrt();
        let out = if length > 0.0 {
            chord.left() * (side / length)
        } else {
            Point::new(0.0, side)
        };
        let rise = half_sine * half_sine;
        let lift =
            (end - start) * (weight / 2.0) + Point::new(out.z * semi.z, out.r * semi.r) * rise;
        Arc {
            start,
            end,
            semi,
            convex,
            lift,
            weight,
            quarter: half_sine / (1.0 + weight),
        }
    }

    /// Where it begins.
    pub fn start(&self) -> Point {
        self.start
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        self.end
    }

    /// The half axis along the pen, mm.
    pub fn semi_z_mm(&self) -> f64 {
        self.semi.z
    }

    /// The half axis across the pen, mm.
    pub fn semi_r_mm(&self) -> f64 {
        self.semi.r
    }

    /// True where it bulges away from the axis.
    pub fn is_convex(&self) -> bool {
        self.convex
    }

    /// The radius, where both half axes are one.
    pub fn circle_radius_mm(&self) -> Option<f64> {
        (self.semi.z == self.semi.r).then_some(self.semi.z)
    }

    /// The centre of the ellipse.
    pub fn centre(&self) -> Point {
        // From the middle of the chord, against the bulge, by the cosine of half the sweep.
        let chord = Point::new(
            (self.end.z - self.start.z) / self.semi.z,
            (self.end.r - self.start.r) / self.semi.r,
        );
        let length = chord.norm();
        let out = chord.left() * (self.side() / length.max(f64::MIN_POSITIVE));
        let middle = (self.start + self.end) * 0.5;
        middle - Point::new(out.z * self.semi.z, out.r * self.semi.r) * self.weight
    }

    fn side(&self) -> f64 {
        if self.convex { 1.0 } else { -1.0 }
    }

    pub(crate) fn point(&self, t: f64) -> Point {
        if t >= 1.0 {
            return self.end;
        }
        let (rest, blend) = (1.0 - t, 2.0 * t * (1.0 - t));
        let bottom = rest * rest + blend * self.weight + t * t;
        self.start + (self.lift * blend + (self.end - self.start) * (t * t)) * (1.0 / bottom)
    }

    /// The direction of travel; never against `z`.
    pub(crate) fn tangent(&self, t: f64) -> Point {
        let (rest, across) = (1.0 - t, self.end - self.start);
        // (N' W − N W') / 2 of the rational quadratic, measured from the start.
        let early = self.lift;
        let late = across * self.weight - self.lift;
        let way = early * (rest * rest) + across * (t * rest) + late * (t * t);
        Point::new(way.z.max(0.0), way.r)
    }

    pub(crate) fn homogeneous(&self) -> Homogeneous {
        let middle = self.lift + self.start * self.weight;
        Homogeneous {
            z: Poly::new(&[self.start.z, middle.z, self.end.z]),
            r: Poly::new(&[self.start.r, middle.r, self.end.r]),
            w: Poly::new(&[1.0, self.weight, 1.0]),
        }
    }

    /// The parameter where the coordinate that runs `0, lift, across` from the start is `value`.
    fn param(&self, lift: f64, across: f64, value: f64) -> f64 {
        // Quadratic in t / (1 − t); the root by the form that does not cancel.
        let (first, middle, last) = (-value, lift - self.weight * value, across - value);
        let root = (middle * middle - first * last).max(0.0).sqrt();
        let sign = if across < 0.0 { -1.0 } else { 1.0 };
        let (first, middle, last) = (sign * first, sign * middle, sign * last);
        let (top, bottom) = if middle > 0.0 {
            (-first, middle + root)
        } else {
            (root - middle, last)
        };
        let whole = top + bottom;
        if whole > 0.0 {
            (top / whole).clamp(0.0, 1.0)
        } else {
            0.0
        }
    }

    pub(crate) fn param_at_z(&self, z: f64) -> f64 {
        self.param(self.lift.z, self.end.z - self.start.z, z - self.start.z)
    }

    /// For an arc whose radius only grows or only falls.
    pub(crate) fn param_at_r(&self, r: f64) -> f64 {
        self.param(self.lift.r, self.end.r - self.start.r, r - self.start.r)
    }

    pub(crate) fn between(&self, start: Point, end: Point) -> Arc {
        Arc::unchecked(start, end, self.semi, self.convex)
    }

    pub(crate) fn moved(&self, dz: f64) -> Arc {
        let step = Point::new(dz, 0.0);
        Arc {
            start: self.start + step,
            end: self.end + step,
            ..*self
        }
    }

    pub(crate) fn reversed(&self, about: f64) -> Arc {
        Arc::unchecked(
            self.end.reversed(about),
            self.start.reversed(about),
            self.semi,
            self.convex,
        )
    }

    /// By the angle swept in the circle that the ellipse is stretched from.
    pub(crate) fn swept(&self) -> SweptArc<'_> {
        SweptArc {
            arc: self,
            centre: self.centre(),
            sweep: 4.0 * self.quarter.atan(),
        }
    }

    /// Zero on the ellipse as a polynomial along another curve.
    pub(crate) fn implicit(&self, along: &Homogeneous) -> Poly {
        let centre = self.centre();
        let z = along.z.plus(-centre.z, &along.w);
        let r = along.r.plus(-centre.r, &along.w);
        let square = |poly: &Poly| poly.times(poly);
        let sum = square(&z).plus((self.semi.z / self.semi.r).powi(2), &square(&r));
        sum.plus(-self.semi.z.powi(2), &square(&along.w))
    }

    /// True where a place on the whole ellipse is on this arc's side of the centre.
    pub(crate) fn has_side_of(&self, at: Point) -> bool {
        self.side() * (at.r - self.centre().r) >= -1e-9 * self.semi.r
    }
}

/// An arc by the angle swept, as a share of the whole.
pub(crate) struct SweptArc<'a> {
    arc: &'a Arc,
    centre: Point,
    /// Radians.
    sweep: f64,
}

impl SweptArc<'_> {
    /// The parameter at this share (0..1) of the angle.
    pub(crate) fn param(&self, share: f64) -> f64 {
        let angle = (share - 0.5) * self.sweep;
        0.5 + (angle / 2.0).tan() / (2.0 * self.arc.quarter)
    }

    /// The place there, and its step for the whole angle.
    pub(crate) fn at(&self, share: f64) -> (Point, Point) {
        let place = match share {
            0.0 => self.arc.start,
            1.0 => self.arc.end,
            _ => self.arc.point(self.param(share)),
        };
        (place, self.step(place))
    }

    /// The step for the whole angle at a place of the arc.
    pub(crate) fn step(&self, place: Point) -> Point {
        let (from, semi) = (place - self.centre, self.arc.semi);
        let per_radian = Point::new(from.r * semi.z / semi.r, -from.z * semi.r / semi.z);
        per_radian * (self.arc.side() * self.sweep)
    }
}
