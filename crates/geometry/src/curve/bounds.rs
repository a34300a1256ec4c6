//! A box round a curve.

use super::Curve;
use crate::Point;

/// A box round a curve, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Least `z` and `r`.
    pub min: Point,
    /// Greatest `z` and `r`.
    pub max: Point,
}

impl Curve {
    /// The least box round the curve.
    pub fn bounds(&self) -> Bounds {
        let (start, end) = (self.start(), self.end());
        let mut bounds = Bounds {
            min: Point::new(start.z, start.r.min(end.r)),
            max: Point::new(end.z, start.r.max(end.r)),
        };
        for t in self.parallel_to(Point::new(1.0, 0.0)).as_slice() {
            let r = self.point(*t).r;
            bounds.min.r = bounds.min.r.min(r);
            bounds.max.r = bounds.max.r.max(r);
        }
        bounds
    }

    /// A box that holds the curve, and may be larger than [`Curve::bounds`].
    pub(crate) fn hull(&self) -> Bounds {
        let Curve::Cubic(cubic) = self else {
            return self.bounds();
        };
        let points = cubic.points();
        let least = |of: fn(&Point) -> f64| points.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = |of: fn(&Point) -> f64| points.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        Bounds {
            min: Point::new(least(|it| it.z), least(|it| it.r)),
            max: Point::new(most(|it| it.z), most(|it| it.r)),
        }
    }
}

impl Bounds {
    /// No two places of two curves with these boxes are nearer than this, mm.
    pub fn distance(&self, other: &Bounds) -> f64 {
        let gap = |a: (f64, f64), b: (f64, f64)| (b.0 - a.1).max(a.0 - b.1).max(0.0);
        Point::new(
            gap((self.min.z, self.max.z), (other.min.z, other.max.z)),
            gap((self.min.r, self.max.r), (other.min.r, other.max.r)),
        )
        .norm()
    }
}
