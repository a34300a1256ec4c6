//! `Mass`: weight, balance and inertia of bodies on one axis.

use crate::Properties;

/// The mass of a body on the axis, where it balances and how it resists turning.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Mass {
    /// Mass, g.
    pub mass_g: f64,
    /// The centre of mass on the axis, mm.
    pub centre_mm: f64,
    /// Moment of inertia about the axis, g mm².
    pub axial_g_mm2: f64,
    /// Moment of inertia about any axis square to it through the centre of mass, g mm².
    pub transverse_g_mm2: f64,
}

impl Mass {
    /// Of a mass at one place.
    pub const fn at(mass_g: f64, centre_mm: f64) -> Mass {
        Mass {
            mass_g,
            centre_mm,
            axial_g_mm2: 0.0,
            transverse_g_mm2: 0.0,
        }
    }

    /// Moved along the axis.
    pub fn moved(self, dz_mm: f64) -> Mass {
        Mass {
            centre_mm: self.centre_mm + dz_mm,
            ..self
        }
    }

    /// Turned end for end, `z` becoming `about_mm` less `z`.
    pub fn reversed(self, about_mm: f64) -> Mass {
        Mass {
            centre_mm: about_mm - self.centre_mm,
            ..self
        }
    }
}

impl Properties {
    /// As a body of one density in g/cm³.
    pub fn of_density(self, g_per_cm3: f64) -> Mass {
        let per_mm3 = g_per_cm3 / 1000.0;
        Mass {
            mass_g: self.volume_mm3 * per_mm3,
            centre_mm: self.centroid_mm,
            axial_g_mm2: self.axial_mm5 * per_mm3,
            transverse_g_mm2: self.transverse_mm5 * per_mm3,
        }
    }

    /// As a body of one density that weighs so much; a mass at the centroid where it has no volume.
    pub fn of_mass(self, mass_g: f64) -> Mass {
        if self.volume_mm3 > 0.0 {
            self.of_density(1000.0 * mass_g / self.volume_mm3)
        } else {
            Mass::at(mass_g, self.centroid_mm)
        }
    }
}

/// Bodies taken as one, by the parallel axis theorem.
impl std::iter::Sum for Mass {
    fn sum<I: Iterator<Item = Mass>>(bodies: I) -> Mass {
        bodies.fold(Mass::default(), |sum, body| {
            let mass_g = sum.mass_g + body.mass_g;
            let apart = body.centre_mm - sum.centre_mm;
            let share = if mass_g == 0.0 {
                0.0
            } else {
                body.mass_g / mass_g
            };
            Mass {
                mass_g,
                centre_mm: if sum.mass_g == 0.0 {
                    body.centre_mm
                } else {
                    sum.centre_mm + apart * share
                },
                axial_g_mm2: sum.axial_g_mm2 + body.axial_g_mm2,
                transverse_g_mm2: sum.transverse_g_mm2
                    + body.transverse_g_mm2
                    + sum.mass_g * share * apart * apart,
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Chain, Point, Tag};

    #[test]
    fn two_halves_weigh_and_balance_as_the_whole() {
        let rod = |from: f64, to: f64| {
            let line = Chain::polyline(Tag(0), &[Point::new(from, 6.0), Point::new(to, 6.0)]);
            Properties::within(&line.unwrap()).of_density(1.18)
        };
        let (whole, halves): (Mass, Mass) = (
            rod(0.0, 130.0),
            [rod(0.0, 50.0), rod(50.0, 130.0)].into_iter().sum(),
        );
        for (wanted, got) in [
            (whole.mass_g, halves.mass_g),
            (whole.centre_mm, halves.centre_mm),
            (whole.axial_g_mm2, halves.axial_g_mm2),
            (whole.transverse_g_mm2, halves.transverse_g_mm2),
        ] {
            assert!((got / wanted - 1.0).abs() < 1e-13, "{got} for {wanted}");
        }
    }
}
