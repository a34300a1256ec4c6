//! The data of a path.

use super::super::number;
use crate::scene::{Path, PathElement, Xy};
use std::f64::consts::PI;
use std::fmt::Write as _;

pub(crate) fn data(path: &Path, height: f64, places: usize) -> String {
    let mut data = format!("M{}", place(path.start, height, places));
    let mut from = path.start;
    for step in &path.steps {
        let level = [from, step.to()].map(|at| number(height - at.y, places));
        let upright = [from, step.to()].map(|at| number(at.x, places));
        from = step.to();
        let _ = match *step {
            // Along and across, one number says where to.
            PathElement::Line(_) if level[0] == level[1] => write!(data, "H{}", upright[1]),
            PathElement::Line(_) if upright[0] == upright[1] => write!(data, "V{}", level[1]),
            PathElement::Line(to) => write!(data, "L{}", place(to, height, places)),
            PathElement::Cubic(a, b, to) => write!(
                data,
                "C{} {} {}",
                place(a, height, places),
                place(b, height, places),
                place(to, height, places)
            ),
            PathElement::Arc {
                semi,
                sweep_rad,
                to,
                ..
            } => write!(
                data,
                "A{} {} 0 {} {} {}",
                number(semi.x, places),
                number(semi.y, places),
                u8::from(sweep_rad.abs() > PI),
                // `y` runs down here, so anticlockwise on paper is the negative sense.
                u8::from(sweep_rad < 0.0),
                place(to, height, places)
            ),
        };
    }
    if path.closed {
        data.push('Z');
    }
    data
}

pub(super) fn place(at: Xy, height: f64, places: usize) -> String {
    format!("{} {}", number(at.x, places), number(height - at.y, places))
}
