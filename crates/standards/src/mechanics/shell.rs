//! A ring of load on a tube, near its end: a snap ring that springs past a ridge.

use std::f64::consts::PI;

use super::{Elastic, ramp, sound};
use crate::Source;

/// A tube under a ring of load bends as a beam on an elastic foundation.
pub const SOURCE: Source =
    Source::new("Hetényi, Beams on Elastic Foundation (1946): beam free at one end, from memory");

/// A tube that goes on behind where it is loaded, far enough to be taken for endless.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shell {
    /// The radius of the middle of its wall, mm.
    pub mean_radius_mm: f64,
    /// Its wall, mm.
    pub wall_mm: f64,
    /// From its free end to where it is loaded, mm.
    pub from_end_mm: f64,
    /// What it is made of.
    pub elastic: Elastic,
}

/// A ridge that springs past another inside or around it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Snap {
    /// The part outside, at its ridge.
    pub outer: Shell,
    /// The part inside, at its ridge.
    pub inner: Shell,
    /// The diameter where they touch, mm.
    pub joint_mm: f64,
    /// How far they overlap on diameter, mm.
    pub overlap_mm: f64,
    /// The flank that it leaves by, degrees from the axis.
    pub ramp_deg: f64,
}

/// What springing past takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sprung {
    /// The axial force, N.
    pub hold_n: f64,
    /// The strain while it springs: the overlap over the diameter, as if one side were rigid.
    pub strain: f64,
}

impl Shell {
    /// How far its wall moves, in mm, per N/mm of load all round.
    ///
    /// β⁴ = 3(1-ν²)/(r²t²), D = Et³/12(1-ν²), at x from the end `[1 + e^(-2βx)(1 + 2cos²βx - 2 sin
    /// βx cos βx)] / 8β³D`. Checked by beam elements.
    pub fn compliance_mm2_per_n(&self) -> Option<f64> {
        let (r, t, x) = (self.mean_radius_mm, self.wall_mm, self.from_end_mm);
        if !(r > t / 2.0 && t > 0.0 && x >= 0.0 && self.elastic.is_possible()) {
            return None;
        }
        let stiff = 1.0 - self.elastic.poisson.powi(2);
        let beta = (3.0 * stiff / (r * r * t * t)).powf(0.25);
        let bending = self.elastic.modulus_mpa() * t.powi(3) / (12.0 * stiff);
        let (sin, cos) = (beta * x).sin_cos();
        let end = (-2.0 * beta * x).exp() * (1.0 + 2.0 * cos * cos - 2.0 * sin * cos);
        sound((1.0 + end) / (8.0 * beta.powi(3) * bending))
    }
}

impl Snap {
    /// What it takes with a friction.
    pub fn sprung(&self, friction: f64) -> Option<Sprung> {
        let gives = self.outer.compliance_mm2_per_n()? + self.inner.compliance_mm2_per_n()?;
        let per_mm = sound(self.overlap_mm / 2.0 / gives)?;
        let share = ramp::axial_share(self.ramp_deg, friction)?;
        Some(Sprung {
            hold_n: sound(PI * self.joint_mm * per_mm * share)?,
            strain: sound(self.overlap_mm / self.joint_mm)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ACETAL: Elastic = Elastic {
        modulus_gpa: 2.8,
        poisson: 0.35,
    };

    fn shell(outside: f64, inside: f64, from_end_mm: f64) -> Shell {
        Shell {
            mean_radius_mm: (outside + inside) / 4.0,
            wall_mm: (outside - inside) / 2.0,
            from_end_mm,
            elastic: ACETAL,
        }
    }

    /// An acetal ring 1.7 thick round 12.1, its ridge 3.1 from the mouth, over a 12/9.3 tenon's,
    /// 5.9 from its end, 0.2 of overlap, out by a ramp of 1 in 4. The figure by a short program
    /// written apart, and by beam elements.
    #[test]
    fn an_unslit_ring_takes_hundreds_of_newtons() {
        let snap = Snap {
            outer: shell(15.41, 12.1, 3.1),
            inner: shell(12.0, 9.3, 5.9),
            joint_mm: 12.1,
            overlap_mm: 0.2,
            ramp_deg: 0.25_f64.atan().to_degrees(),
        };
        let sprung = snap.sprung(0.25).unwrap();
        assert!((sprung.hold_n - 528.0).abs() < 0.5, "{}", sprung.hold_n);
        assert!((sprung.strain - 0.2 / 12.1).abs() < 1e-12);
        let twice = Snap {
            overlap_mm: 0.4,
            ..snap
        };
        assert!((twice.sprung(0.25).unwrap().hold_n / sprung.hold_n - 2.0).abs() < 1e-12);
    }

    /// Far from the end 1/8β³D, at the end four times as much (Hetényi's two limits).
    #[test]
    fn an_end_gives_four_times_as_much_as_the_middle() {
        let at = |x: f64| shell(15.0, 12.0, x).compliance_mm2_per_n().unwrap();
        assert!((at(0.0) / at(80.0) - 4.0).abs() < 1e-12);
        let (r, t) = (6.75_f64, 1.5_f64);
        let stiff = 1.0 - 0.35_f64.powi(2);
        let beta = (3.0 * stiff).powf(0.25) / (r * t).sqrt();
        let bending = 2800.0 * t.powi(3) / 12.0 / stiff;
        assert!((at(80.0) * 8.0 * beta.powi(3) * bending - 1.0).abs() < 1e-12);
    }

    #[test]
    fn what_cannot_be_has_no_force() {
        let good = shell(15.0, 12.0, 3.0);
        for bad in [
            Shell {
                wall_mm: 0.0,
                ..good
            },
            Shell {
                wall_mm: f64::NAN,
                ..good
            },
            Shell {
                mean_radius_mm: 0.1,
                ..good
            },
            Shell {
                from_end_mm: -1.0,
                ..good
            },
            Shell {
                elastic: Elastic {
                    modulus_gpa: f64::NAN,
                    poisson: 0.3,
                },
                ..good
            },
        ] {
            assert_eq!(bad.compliance_mm2_per_n(), None, "{bad:?}");
        }
    }
}
