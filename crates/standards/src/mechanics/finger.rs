//! Fingers: a tube slit from its end, each strip a cantilever.

use std::f64::consts::PI;

use super::{Elastic, ramp, shell::Sprung, sound};
use crate::Source;

/// A cantilever, its section a sector of a ring.
pub const SOURCE: Source =
    Source::new("cantilever under an end load, any textbook of strength of materials");

/// A tube slit into fingers that spring over a ridge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fingers {
    /// How many.
    pub count: u32,
    /// The outside of the tube, a diameter, mm.
    pub outside_mm: f64,
    /// Its bore, a diameter, mm.
    pub bore_mm: f64,
    /// The width of each slot, mm.
    pub slot_mm: f64,
    /// From the root of the slots to where the fingers are loaded, mm.
    pub length_mm: f64,
    /// What they are made of.
    pub elastic: Elastic,
}

/// The section of one finger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sector {
    /// Second moment of area about the axis through its centroid, square to the radius, mm⁴.
    pub second_moment_mm4: f64,
    /// From there to the fibre that is strained most, mm.
    pub fibre_mm: f64,
}

impl Fingers {
    /// The section of one: a sector of the ring between two slots, by its exact integrals. It takes
    /// up `2π/N - W/r` at the mean radius r.
    ///
    /// A = α(R² - b²), centroid 2 sin α (R³ - b³)/3A, I = (R⁴ - b⁴)/4 (α + sin α cos α) - A c²,
    /// α half of its angle.
    pub fn sector(&self) -> Option<Sector> {
        let (outer, inner) = (self.outside_mm / 2.0, self.bore_mm / 2.0);
        let mean = (outer + inner) / 2.0;
        let half = PI / f64::from(self.count) - self.slot_mm / (2.0 * mean);
        let possible = self.count > 1 && inner >= 0.0 && outer > inner && self.slot_mm >= 0.0;
        if !(possible && half > 0.0 && half.is_finite()) {
            return None;
        }
        let (sin, cos) = half.sin_cos();
        let area = half * (outer - inner) * (outer + inner);
        let centroid = 2.0 * sin * (outer.powi(3) - inner.powi(3)) / (3.0 * area);
        let about_axis = (outer.powi(4) - inner.powi(4)) / 4.0 * (half + sin * cos);
        Some(Sector {
            second_moment_mm4: sound(about_axis - area * centroid * centroid)?,
            fibre_mm: sound((outer - centroid).max(centroid - inner * cos))?,
        })
    }

    /// What it takes to draw them over a ridge: each is bent by half of the overlap on diameter,
    /// F = 3EIy/L³, and strained by 3yc/L² at its root.
    pub fn sprung(&self, overlap_mm: f64, ramp_deg: f64, friction: f64) -> Option<Sprung> {
        let sector = self.sector()?;
        let (bent, long) = (overlap_mm / 2.0, self.length_mm);
        if !(long > 0.0 && self.elastic.is_possible()) {
            return None;
        }
        let stiff = 3.0 * self.elastic.modulus_mpa() * sector.second_moment_mm4;
        let radial = f64::from(self.count) * stiff * bent / long.powi(3);
        let share = ramp::axial_share(ramp_deg, friction)?;
        Some(Sprung {
            hold_n: sound(radial * share)?,
            strain: sound(3.0 * bent * sector.fibre_mm / (long * long))?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIX: Fingers = Fingers {
        count: 6,
        outside_mm: 14.0,
        bore_mm: 12.1,
        slot_mm: 1.0,
        length_mm: 6.9,
        elastic: Elastic {
            modulus_gpa: 2.35,
            poisson: 0.35,
        },
    };

    /// Six fingers of a polycarbonate tube 14/12.1, slots 1 wide and 9.5 long, the land 2.6 from the
    /// end: L = 6.9; 0.16 of overlap; out by 0.13 in 0.6. The sector's moment is held by a sum over
    /// cells below.
    #[test]
    fn six_fingers_take_a_few_newtons() {
        let ramp = (0.13_f64 / 0.6).atan().to_degrees();
        let sprung = SIX.sprung(0.16, ramp, 0.25).unwrap();
        assert!((sprung.hold_n - 3.0).abs() < 0.05, "{}", sprung.hold_n);
        assert!(
            (100.0 * sprung.strain - 0.44).abs() < 0.005,
            "{}",
            sprung.strain
        );
    }

    #[test]
    fn a_sector_by_cells() {
        let sector = SIX.sector().unwrap();
        let half = PI / 6.0 - 0.5 / 6.525;
        let (mut area, mut first, mut second) = (0.0, 0.0, 0.0);
        let (rings, rays) = (400, 800);
        for ring in 0..rings {
            let r = 6.05 + 0.95 * (f64::from(ring) + 0.5) / f64::from(rings);
            for ray in 0..rays {
                let angle = half * (2.0 * (f64::from(ray) + 0.5) / f64::from(rays) - 1.0);
                let cell = r * (0.95 / f64::from(rays)) * (2.0 * half / f64::from(rings));
                let x = r * angle.cos();
                area += cell;
                first += cell * x;
                second += cell * x * x;
            }
        }
        let centroid = first / area;
        let moment = second - first * centroid;
        assert!((sector.second_moment_mm4 / moment - 1.0).abs() < 1e-4);
        let fibre = (7.0 - centroid).max(centroid - 6.05 * half.cos());
        assert!((sector.fibre_mm - fibre).abs() < 1e-5);
    }

    #[test]
    fn what_cannot_be_has_no_force() {
        for bad in [
            Fingers { count: 0, ..SIX },
            Fingers { count: 1, ..SIX },
            Fingers {
                bore_mm: 14.0,
                ..SIX
            },
            Fingers {
                slot_mm: 7.0,
                ..SIX
            },
            Fingers {
                length_mm: 0.0,
                ..SIX
            },
            Fingers {
                outside_mm: f64::NAN,
                ..SIX
            },
        ] {
            assert_eq!(bad.sprung(0.16, 10.0, 0.25), None, "{bad:?}");
        }
        assert_eq!(SIX.sprung(-0.1, 10.0, 0.25), None);
    }
}
