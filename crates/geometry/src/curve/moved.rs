//! A curve elsewhere: along the axis, outward, the other way round.

use super::{Curve, Line};
use crate::{Arc, Cubic, Point};

impl Curve {
    /// Moved along the axis.
    pub fn moved(&self, dz: f64) -> Curve {
        let step = Point::new(dz, 0.0);
        match self {
            Curve::Line(line) => Curve::Line(Line {
                start: line.start + step,
                end: line.end + step,
            }),
            Curve::Arc(arc) => Curve::Arc(arc.moved(dz)),
            Curve::Cubic(cubic) => Curve::Cubic(cubic.moved(dz)),
        }
    }

    /// Moved away from the axis, or towards it where `by` is negative; none where an arc would
    /// not hold there.
    pub fn raised(&self, by: f64) -> Option<Curve> {
        let up = |place: Point| place + Point::new(0.0, by);
        Some(match self {
            Curve::Line(line) => Curve::Line(Line {
                start: up(line.start),
                end: up(line.end),
            }),
            Curve::Arc(arc) => Curve::Arc(Arc::new(
                up(arc.start()),
                up(arc.end()),
                arc.semi_z_mm(),
                arc.semi_r_mm(),
                arc.is_convex(),
            )?),
            Curve::Cubic(cubic) => Curve::Cubic(Cubic::new(cubic.points().map(up))?),
        })
    }

    /// Turned end for end, `z` becoming `about` less `z`.
    pub fn reversed(&self, about: f64) -> Curve {
        match self {
            Curve::Line(line) => Curve::Line(Line {
                start: line.end.reversed(about),
                end: line.start.reversed(about),
            }),
            Curve::Arc(arc) => Curve::Arc(arc.reversed(about)),
            Curve::Cubic(cubic) => Curve::Cubic(cubic.reversed(about)),
        }
    }
}
