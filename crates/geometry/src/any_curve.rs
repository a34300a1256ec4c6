//! Curves of every kind, for property tests.

use crate::{Arc, Cubic, Curve, Point};
use proptest::prelude::*;

/// A line, a face, an arc, a dome or a cubic, 0 to 20 mm along the axis and up to 8 mm from it.
pub(crate) fn curves() -> impl Strategy<Value = Curve> {
    let place = || (0.0..10.0_f64, 0.0..8.0_f64);
    (0..5, place(), place(), -2.0..2.0_f64, -2.0..2.0_f64).prop_filter_map(
        "an arc that can be made",
        |(kind, a, b, one, two)| {
            let (start, end) = (Point::new(a.0, a.1), Point::new(a.0 + b.0 + 0.1, b.1));
            match kind {
                0 => Some(Curve::line(start, end)),
                1 => Arc::circular(start, end, 6.0 + two, one > 0.0).map(Curve::Arc),
                2 => Arc::dome(start, end).map(Curve::Arc),
                3 => Some(Curve::line(start, Point::new(start.z, end.r))),
                _ => Cubic::with_slopes(start, end, one, two).map(Curve::Cubic),
            }
        },
    )
}
