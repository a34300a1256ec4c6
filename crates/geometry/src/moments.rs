//! `Moments`: what of a solid adds up, for solids that are not round.

use std::ops::{Add, Mul, Sub};

use crate::Properties;

/// Integrals over a solid at unit density, with `z` along the axis, `x` through the mark and `y` a
/// quarter turn clockwise from it, looking at the first end. They add where solids do.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moments {
    /// Volume, mm³.
    pub volume_mm3: f64,
    /// ∫x dV, mm⁴.
    pub x_mm4: f64,
    /// ∫y dV, mm⁴.
    pub y_mm4: f64,
    /// ∫z dV, mm⁴.
    pub z_mm4: f64,
    /// ∫z² dV, mm⁵.
    pub zz_mm5: f64,
    /// ∫(x² + y²) dV, mm⁵: the moment of inertia about the axis.
    pub axial_mm5: f64,
}

impl Moments {
    /// From the integrals `[∫dV, ∫x dV, ∫y dV, ∫z dV, ∫z² dV, ∫(x² + y²) dV]` in which `z` is counted from
    /// the station `from_mm`.
    pub(crate) fn counted_from(from_mm: f64, integrals: [f64; 6]) -> Moments {
        let [volume_mm3, x_mm4, y_mm4, z, zz, axial_mm5] = integrals;
        Moments {
            volume_mm3,
            x_mm4,
            y_mm4,
            z_mm4: z + from_mm * volume_mm3,
            zz_mm5: zz + from_mm * (2.0 * z + from_mm * volume_mm3),
            axial_mm5,
        }
    }

    /// How far from the axis the centroid lies, mm, along x and y: a single flat shifts it. None
    /// where there is no volume.
    pub fn offset_mm(self) -> Option<[f64; 2]> {
        let offset = [self.x_mm4, self.y_mm4].map(|first| first / self.volume_mm3);
        offset.iter().all(|it| it.is_finite()).then_some(offset)
    }

    /// As properties about the axis: the station of the centroid, the moment about the axis itself
    /// (not through a centroid beside it), and the mean of the two about axes square to it.
    pub fn properties(self) -> Properties {
        let centroid_mm = if self.volume_mm3 == 0.0 {
            0.0
        } else {
            self.z_mm4 / self.volume_mm3
        };
        Properties {
            volume_mm3: self.volume_mm3,
            centroid_mm,
            axial_mm5: self.axial_mm5,
            transverse_mm5: self.zz_mm5 - self.z_mm4 * centroid_mm + self.axial_mm5 / 2.0,
        }
    }

    /// Turned about the axis, clockwise looking at the first end.
    #[must_use]
    pub fn turned(self, clock_deg: f64) -> Moments {
        let (sin, cos) = clock_deg.to_radians().sin_cos();
        Moments {
            x_mm4: self.x_mm4 * cos - self.y_mm4 * sin,
            y_mm4: self.x_mm4 * sin + self.y_mm4 * cos,
            ..self
        }
    }

    /// The sum of `count` of them, evenly round the axis from this one.
    #[must_use]
    pub fn indexed(self, count: u32) -> Moments {
        let spread = if count == 1 { 1.0 } else { 0.0 };
        let many = self * f64::from(count);
        Moments {
            x_mm4: many.x_mm4 * spread,
            y_mm4: many.y_mm4 * spread,
            ..many
        }
    }
}

/// Of a solid of revolution.
impl From<Properties> for Moments {
    fn from(round: Properties) -> Moments {
        let z_mm4 = round.volume_mm3 * round.centroid_mm;
        Moments {
            volume_mm3: round.volume_mm3,
            x_mm4: 0.0,
            y_mm4: 0.0,
            z_mm4,
            zz_mm5: round.transverse_mm5 - round.axial_mm5 / 2.0 + z_mm4 * round.centroid_mm,
            axial_mm5: round.axial_mm5,
        }
    }
}

impl Add for Moments {
    type Output = Moments;
    fn add(self, other: Moments) -> Moments {
        Moments {
            volume_mm3: self.volume_mm3 + other.volume_mm3,
            x_mm4: self.x_mm4 + other.x_mm4,
            y_mm4: self.y_mm4 + other.y_mm4,
            z_mm4: self.z_mm4 + other.z_mm4,
            zz_mm5: self.zz_mm5 + other.zz_mm5,
            axial_mm5: self.axial_mm5 + other.axial_mm5,
        }
    }
}

impl Sub for Moments {
    type Output = Moments;
    fn sub(self, other: Moments) -> Moments {
        self + other * -1.0
    }
}

impl Mul<f64> for Moments {
    type Output = Moments;
    fn mul(self, by: f64) -> Moments {
        Moments {
            volume_mm3: self.volume_mm3 * by,
            x_mm4: self.x_mm4 * by,
            y_mm4: self.y_mm4 * by,
            z_mm4: self.z_mm4 * by,
            zz_mm5: self.zz_mm5 * by,
            axial_mm5: self.axial_mm5 * by,
        }
    }
}

impl std::iter::Sum for Moments {
    fn sum<I: Iterator<Item = Moments>>(parts: I) -> Moments {
        parts.fold(Moments::default(), Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Chain, Point, Tag};

    #[test]
    fn a_round_solid_comes_back_as_it_was() {
        let cone = Chain::polyline(Tag(0), &[Point::new(3.0, 6.0), Point::new(61.0, 4.0)]);
        let round = Properties::within(&cone.unwrap());
        let back = Moments::from(round).properties();
        for (wanted, got) in [
            (round.volume_mm3, back.volume_mm3),
            (round.centroid_mm, back.centroid_mm),
            (round.axial_mm5, back.axial_mm5),
            (round.transverse_mm5, back.transverse_mm5),
        ] {
            assert!((got / wanted - 1.0).abs() < 1e-12, "{got} for {wanted}");
        }
    }

    #[test]
    fn what_is_turned_a_quarter_lies_along_y() {
        let beside = Moments {
            volume_mm3: 2.0,
            x_mm4: 3.0,
            ..Moments::default()
        };
        let [x, y] = beside.turned(90.0).offset_mm().unwrap();
        assert!(x.abs() < 1e-15 && (y - 1.5).abs() < 1e-15);
        assert_eq!(beside.indexed(3).offset_mm(), Some([0.0, 0.0]));
        assert_eq!(Moments::default().offset_mm(), None);
    }
}
