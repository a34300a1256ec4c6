//! Entities of ISO 10303-21 and what all of them are written with.

use quillet_geometry::Point;
use std::fmt::Write as _;

/// An entity's number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct EntityId(u32);

impl std::fmt::Display for EntityId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "#{}", self.0)
    }
}

/// The entities of a file as they are put into it.
#[derive(Default)]
pub(super) struct StepFile {
    pub(super) text: String,
    last: u32,
}

impl StepFile {
    pub(super) fn put(&mut self, entity: &str) -> EntityId {
        self.last += 1;
        let _ = writeln!(self.text, "#{}={entity};", self.last);
        EntityId(self.last)
    }

    /// A place in the meridian plane, or on the axis.
    pub(super) fn place(&mut self, at: Point) -> EntityId {
        let (r, z) = (real(at.r), real(at.z));
        self.put(&format!("CARTESIAN_POINT('',({r},0.,{z}))"))
    }

    pub(super) fn direction(&mut self, x: f64, y: f64, z: f64) -> EntityId {
        self.put(&format!(
            "DIRECTION('',({},{},{}))",
            real(x),
            real(y),
            real(z)
        ))
    }

    /// Axes at a place of the meridian plane: the main one, and the one from which angles count.
    pub(super) fn axes(&mut self, at: Point, axis: [f64; 3], first: [f64; 3]) -> EntityId {
        let place = self.place(at);
        let (axis, first) = (
            self.direction(axis[0], axis[1], axis[2]),
            self.direction(first[0], first[1], first[2]),
        );
        self.put(&format!("AXIS2_PLACEMENT_3D('',{place},{axis},{first})"))
    }

    /// Axes on the pen's axis, pointing along it or against it.
    pub(super) fn coaxial(&mut self, z_mm: f64, along: f64) -> EntityId {
        self.axes(Point::new(z_mm, 0.0), [0.0, 0.0, along], [1.0, 0.0, 0.0])
    }
}

pub(super) fn logical(is: bool) -> &'static str {
    if is { ".T." } else { ".F." }
}

/// A real of ISO 10303-21: it always has a point; shortest digits that read back the same.
pub(super) fn real(value: f64) -> String {
    let value = if value == 0.0 { 0.0 } else { value };
    let text = format!("{value:?}");
    let (digits, power) = text.split_once('e').unwrap_or((&text, ""));
    let point = if digits.contains('.') { "" } else { "." };
    let digits = digits
        .strip_suffix('0')
        .filter(|rest| rest.ends_with('.'))
        .unwrap_or(digits);
    match power {
        "" => format!("{digits}{point}"),
        power => format!("{digits}{point}E{power}"),
    }
}
