//! `Point`: a place in the meridian plane.

use std::ops::{Add, Mul, Sub};

use crate::Length;

/// A place (or a step) in the meridian plane, in millimetres: `z` along the axis, `r` from it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Along the axis, mm.
    pub z: f64,
    /// From the axis, mm.
    pub r: f64,
}

impl Point {
    /// A place in millimetres.
    pub const fn new(z: f64, r: f64) -> Point {
        Point { z, r }
    }

    /// The place on a diameter at a station, as calipers and rule read it.
    pub fn turned(z: Length, dia: Length) -> Point {
        Point {
            z: z.to_mm(),
            r: dia.to_mm() / 2.0,
        }
    }

    /// The straight distance to another place, mm.
    pub fn distance(self, other: Point) -> f64 {
        (other - self).norm()
    }

    pub(crate) fn norm(self) -> f64 {
        self.dot(self).sqrt()
    }

    pub(crate) fn dot(self, other: Point) -> f64 {
        self.z * other.z + self.r * other.r
    }

    /// Positive where `other` is to the left (towards larger r when `self` runs along z).
    pub(crate) fn cross(self, other: Point) -> f64 {
        self.z * other.r - self.r * other.z
    }

    /// Turned a quarter to the left.
    pub(crate) fn left(self) -> Point {
        Point {
            z: -self.r,
            r: self.z,
        }
    }

    pub(crate) fn towards(self, other: Point, t: f64) -> Point {
        if t >= 1.0 {
            other
        } else {
            self + (other - self) * t
        }
    }

    /// The image when the axis is turned end for end, `z` becoming `about` less `z`.
    pub(crate) fn reversed(self, about: f64) -> Point {
        Point {
            z: about - self.z,
            r: self.r,
        }
    }
}

impl Add for Point {
    type Output = Point;
    fn add(self, other: Point) -> Point {
        Point {
            z: self.z + other.z,
            r: self.r + other.r,
        }
    }
}

impl Sub for Point {
    type Output = Point;
    fn sub(self, other: Point) -> Point {
        Point {
            z: self.z - other.z,
            r: self.r - other.r,
        }
    }
}

impl Mul<f64> for Point {
    type Output = Point;
    fn mul(self, by: f64) -> Point {
        Point {
            z: self.z * by,
            r: self.r * by,
        }
    }
}
