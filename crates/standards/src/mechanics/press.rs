//! A ring pressed over a tenon.

use std::f64::consts::PI;

use super::{Elastic, sound};
use crate::Source;

/// Lamé's solution for thick rings; the pressure of an interference fit follows from it.
pub const SOURCE: Source = Source::new("Lamé 1852, as in any textbook of machine elements");

/// A tenon in a ring, both round, as long as each other where they touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Press {
    /// Where they meet, a diameter, mm.
    pub joint_mm: f64,
    /// The outside of the ring, a diameter, mm.
    pub ring_mm: f64,
    /// The bore of the tenon, a diameter, mm; 0 where it is solid.
    pub bore_mm: f64,
    /// What the ring is made of.
    pub ring: Elastic,
    /// What the tenon is made of.
    pub tenon: Elastic,
}

/// What an interference does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pressed {
    /// Pressure where they meet, MPa.
    pub pressure_mpa: f64,
    /// Hoop stress at the bore of the ring, MPa, a tension.
    pub hoop_mpa: f64,
    /// Hoop strain at the bore of the ring: how far its bore opens, of its diameter.
    pub strain: f64,
}

impl Press {
    /// What an interference on diameter does, mm, so much larger the tenon was than the hole.
    pub fn pressed(&self, interference_mm: f64) -> Option<Pressed> {
        let (d, ring, bore) = (self.joint_mm, self.ring_mm, self.bore_mm);
        let possible = 0.0 <= bore && bore < d && d < ring && interference_mm >= 0.0;
        if !possible || !self.ring.is_possible() || !self.tenon.is_possible() {
            return None;
        }
        let thick = |large: f64, small: f64| {
            (large * large + small * small) / ((large - small) * (large + small))
        };
        let opens = (thick(ring, d) + self.ring.poisson) / self.ring.modulus_mpa();
        let closes = (thick(d, bore) - self.tenon.poisson) / self.tenon.modulus_mpa();
        let pressure = sound(interference_mm / (d * (opens + closes)))?;
        Some(Pressed {
            pressure_mpa: pressure,
            hoop_mpa: sound(pressure * thick(ring, d))?,
            strain: sound(pressure * opens)?,
        })
    }
}

impl Pressed {
    /// The axial force that draws them apart, N, over a length of contact.
    pub fn hold_n(&self, joint_mm: f64, length_mm: f64, friction: f64) -> Option<f64> {
        sound(friction * self.pressure_mpa * PI * joint_mm * length_mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RESIN: Elastic = Elastic {
        modulus_gpa: 3.0,
        poisson: 0.35,
    };

    const CAP: Press = Press {
        joint_mm: 12.0,
        ring_mm: 15.0,
        bore_mm: 8.0,
        ring: RESIN,
        tenon: RESIN,
    };

    /// A 12 mm resin cap, 15 outside, on a 12/8 tenon, 8 long, 0.05 of interference. By hand: of
    /// one material ν falls out; (225+144)/(225-144) = 4.5556, (144+64)/(144-64) = 2.6; 7.1556 / 3000
    /// per mm of 12: p = 0.05 × 3000 / (12 × 7.1556) = 1.74689 MPa; 0.25 p π 12 × 8 = 131.7 N.
    #[test]
    fn a_plain_cap_a_twentieth_too_tight_holds_far_too_much() {
        let pressed = CAP.pressed(0.05).unwrap();
        assert!((pressed.pressure_mpa - 1.746_89).abs() < 5e-6);
        assert!((pressed.hoop_mpa - 7.958_07).abs() < 5e-5);
        let hold = pressed.hold_n(12.0, 8.0, 0.25).unwrap();
        assert!((hold - 132.0).abs() < 0.5, "{hold}");
        // 2 to 15 N would be 0.0008 to 0.0057 mm.
        let for_force = |force: f64| 0.05 * force / hold;
        assert!((for_force(2.0) - 0.0008).abs() < 5e-5 && (for_force(15.0) - 0.0057).abs() < 5e-5);
    }

    /// A thin ring of mean radius r and wall t over a rigid tenon: ε = i/d, p = E ε t / r.
    #[test]
    fn a_thin_ring_on_something_rigid_stretches_by_the_interference() {
        let thin = Press {
            joint_mm: 20.0,
            ring_mm: 20.02,
            bore_mm: 0.0,
            ring: RESIN,
            tenon: Elastic {
                modulus_gpa: 1e9,
                poisson: 0.3,
            },
        };
        let pressed = thin.pressed(0.1).unwrap();
        assert!((pressed.strain - 0.005).abs() < 1e-8);
        let hoop = 3000.0 * 0.005 * 0.01 / 10.005;
        assert!((pressed.pressure_mpa / hoop - 1.0).abs() < 1e-3);
    }

    #[test]
    fn what_cannot_be_has_no_force() {
        for press in [
            Press {
                ring_mm: 12.0,
                ..CAP
            },
            Press {
                bore_mm: 12.0,
                ..CAP
            },
            Press {
                bore_mm: f64::NAN,
                ..CAP
            },
            Press {
                joint_mm: f64::INFINITY,
                ..CAP
            },
            Press {
                ring: Elastic {
                    modulus_gpa: 0.0,
                    ..RESIN
                },
                ..CAP
            },
        ] {
            assert_eq!(press.pressed(0.05), None, "{press:?}");
        }
        assert_eq!(CAP.pressed(-0.05), None);
        assert_eq!(CAP.pressed(f64::NAN), None);
        assert_eq!(CAP.pressed(0.05).unwrap().hold_n(12.0, f64::NAN, 0.2), None);
    }
}
