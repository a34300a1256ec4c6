//! `Angle`: an exact count of nanodegrees.

use std::fmt;
use std::ops::{Add, Neg, Sub};

use crate::decimal;

/// An angle, held as an integer count of nanodegrees; arithmetic saturates and never panics.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Angle(i64);

const NANO: i64 = 1_000_000_000;

impl Angle {
    /// No angle.
    pub const ZERO: Angle = Angle(0);

    /// So many degrees, rounded to the nearest nanodegree.
    pub fn deg(degrees: f64) -> Angle {
        Angle((degrees * NANO as f64).round() as i64)
    }

    /// So many nanodegrees.
    pub const fn from_nanodeg(nanodegrees: i64) -> Angle {
        Angle(nanodegrees)
    }

    /// Degrees written in decimals (`118`, `59.5`); none when the text is not a plain decimal.
    pub fn parse_deg(text: &str) -> Option<Angle> {
        decimal::parse(text, NANO).map(Angle)
    }

    /// The count of nanodegrees.
    pub const fn nanodeg(self) -> i64 {
        self.0
    }

    /// In degrees.
    pub fn to_deg(self) -> f64 {
        self.0 as f64 / NANO as f64
    }

    /// In radians.
    pub fn to_rad(self) -> f64 {
        self.to_deg().to_radians()
    }

    /// Half of it, as from an included angle to the angle with the axis.
    pub const fn half(self) -> Angle {
        Angle(self.0 / 2)
    }

    /// How deep a cone of this included angle is whose base has this radius: r / tan(angle / 2), as
    /// of a drill's point or a countersink. Both in mm.
    pub fn cone_depth_mm(self, radius_mm: f64) -> f64 {
        radius_mm / self.cone_flare()
    }

    /// How far the wall of such a cone stands from its axis, so far from its tip. Both in mm.
    pub fn cone_radius_mm(self, depth_mm: f64) -> f64 {
        depth_mm * self.cone_flare()
    }

    fn cone_flare(self) -> f64 {
        (self.to_rad() / 2.0).tan()
    }

    /// The number of degrees to at most `places` decimals, trailing zeros dropped.
    pub fn deg_text(self, places: usize) -> String {
        decimal::format(self.0, NANO, places)
    }
}

/// In degrees with the sign: `118°`. At most two decimals, or as many as the precision asks.
impl fmt::Display for Angle {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad_integral(
            true,
            "",
            &format!("{}°", self.deg_text(out.precision().unwrap_or(2))),
        )
    }
}

impl Add for Angle {
    type Output = Angle;
    fn add(self, other: Angle) -> Angle {
        Angle(self.0.saturating_add(other.0))
    }
}

impl Sub for Angle {
    type Output = Angle;
    fn sub(self, other: Angle) -> Angle {
        Angle(self.0.saturating_sub(other.0))
    }
}

impl Neg for Angle {
    type Output = Angle;
    fn neg(self) -> Angle {
        Angle(self.0.saturating_neg())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drill_point_reads_back() {
        let point = Angle::parse_deg("118").unwrap();
        assert_eq!(point, Angle::deg(118.0));
        assert_eq!(point.to_string(), "118°");
        assert_eq!(point.half().to_deg(), 59.0);
        assert!((point.half().to_rad().tan() - 1.664_279_482).abs() < 1e-9);
        assert_eq!(Angle::parse_deg("59.25").unwrap().to_string(), "59.25°");
        assert_eq!(Angle::parse_deg("right"), None);
    }
}
