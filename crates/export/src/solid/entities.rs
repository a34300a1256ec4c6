//! Entities of ISO 10303-21 and what all of them are written with.

use super::BLOCK;
use quillet_geometry::Point;
use std::fmt::{self, Write as _};
use std::io::{self, BufWriter, Write};

/// An entity's number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct EntityId(u32);

impl fmt::Display for EntityId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{}", self.0)
    }
}

/// The entities of a file as they are put into it; of thousands of solids no more than a block is in
/// memory.
pub(super) struct StepFile<'o> {
    out: BufWriter<&'o mut dyn Write>,
    last: u32,
    /// The cosine and the sine of the direction of the meridian plane.
    meridian: (f64, f64),
    /// What came of it until now.
    written: io::Result<()>,
}

impl StepFile<'_> {
    /// A file that begins so.
    pub(super) fn new<'o>(out: &'o mut dyn Write, header: &str) -> StepFile<'o> {
        let mut out = BufWriter::with_capacity(BLOCK, out);
        let written = out.write_all(header.as_bytes());
        StepFile {
            out,
            last: 0,
            meridian: (1.0, 0.0),
            written,
        }
    }

    pub(super) fn put(&mut self, entity: fmt::Arguments) -> EntityId {
        self.last += 1;
        if self.written.is_ok() {
            self.written = writeln!(self.out, "#{}={entity};", self.last);
        }
        EntityId(self.last)
    }

    /// Writes the end.
    ///
    /// # Errors
    ///
    /// The first that came of any of its writing.
    pub(super) fn end(mut self, footer: &str) -> io::Result<()> {
        self.written?;
        self.out.write_all(footer.as_bytes())?;
        self.out.flush()
    }

    /// A place in the meridian plane, or on the axis.
    pub(super) fn place(&mut self, at: Point) -> EntityId {
        let (cos, sin) = self.meridian;
        self.at([at.r * cos, at.r * sin, at.z])
    }

    /// A place in space.
    pub(super) fn at(&mut self, [x, y, z]: [f64; 3]) -> EntityId {
        let (x, y, z) = (real(x), real(y), real(z));
        self.put(format_args!("CARTESIAN_POINT('',({x},{y},{z}))"))
    }

    /// One millimetre in a direction.
    pub(super) fn vector(&mut self, [x, y, z]: [f64; 3]) -> EntityId {
        let way = self.direction(x, y, z);
        self.put(format_args!("VECTOR('',{way},1.)"))
    }

    /// Axes at a place in space: the main one, and the one from which angles count.
    pub(super) fn turned(&mut self, at: [f64; 3], axis: [f64; 3], first: [f64; 3]) -> EntityId {
        let place = self.at(at);
        let [axis, first] = [axis, first].map(|[x, y, z]| self.direction(x, y, z));
        self.put(format_args!(
            "AXIS2_PLACEMENT_3D('',{place},{axis},{first})"
        ))
    }

    pub(super) fn direction(&mut self, x: f64, y: f64, z: f64) -> EntityId {
        self.put(format_args!(
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
        self.put(format_args!(
            "AXIS2_PLACEMENT_3D('',{place},{axis},{first})"
        ))
    }

    /// Axes on the pen's axis, pointing along it or against it; angles count from the meridian plane.
    pub(super) fn coaxial(&mut self, z_mm: f64, along: f64) -> EntityId {
        let first = self.outwards();
        self.axes(Point::new(z_mm, 0.0), [0.0, 0.0, along], first)
    }

    /// Away from the axis in the meridian plane.
    pub(super) fn outwards(&self) -> [f64; 3] {
        let (cos, sin) = self.meridian;
        [cos, sin, 0.0]
    }

    /// What is put into the file with the meridian plane in another direction, rad.
    pub(super) fn in_meridian<T>(&mut self, angle: f64, put: impl FnOnce(&mut Self) -> T) -> T {
        let (sin, cos) = angle.sin_cos();
        let before = std::mem::replace(&mut self.meridian, (cos, sin));
        let done = put(self);
        self.meridian = before;
        done
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

/// Text between quotes of ISO 10303-21: letters beyond the basic alphabet by their code.
pub(super) fn quoted(text: &str) -> String {
    text.chars().fold(String::new(), |mut out, letter| {
        match letter {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            ' '..='~' => out.push(letter),
            _ => {
                let _ = write!(out, "\\X4\\{:08X}\\X0\\", u32::from(letter));
            }
        }
        out
    })
}
