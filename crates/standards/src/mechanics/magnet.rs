//! Two like magnets on one axis.

use std::f64::consts::PI;

use super::sound;
use crate::Source;

/// Uniform magnetisation along the axis, as charge on the faces.
pub const SOURCE: Source = Source::new(
    "coaxial cylinders magnetised along the axis, charges on their faces (textbook); checked against a magnetics library",
);

/// A disc, or a ring, magnetised along its axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Magnet {
    /// Its outside, a diameter, mm.
    pub outside_mm: f64,
    /// Its hole, a diameter, mm; 0 for a disc.
    pub hole_mm: f64,
    /// Along the axis, mm.
    pub thick_mm: f64,
}

impl Magnet {
    /// The share of the pull in contact that is left over a gap to its like, 0 to 1.
    ///
    /// G(g)/G(0) with G(g) = f(g) - 2f(g+t) + f(g+2t), f the interaction of two charged faces.
    pub fn share_at(&self, gap_mm: f64) -> Option<f64> {
        let possible = 0.0 <= self.hole_mm
            && self.hole_mm < self.outside_mm
            && self.outside_mm.is_finite()
            && self.thick_mm > 0.0
            && self.thick_mm.is_finite()
            && gap_mm >= 0.0
            && gap_mm.is_finite();
        if !possible {
            return None;
        }
        let t = self.thick_mm;
        let pull =
            |gap: f64| self.faces(gap) - 2.0 * self.faces(gap + t) + self.faces(gap + 2.0 * t);
        sound((pull(gap_mm) / pull(0.0)).clamp(0.0, 1.0))
    }

    /// f(z) = ∫₀^∞ [b J₁(kb) - a J₁(ka)]² e^(-kz) dk/k of faces with the radii a and b.
    fn faces(&self, z: f64) -> f64 {
        let (a, b) = (self.hole_mm / 2.0, self.outside_mm / 2.0);
        b * b * discs(b, b, z) - 2.0 * a * b * discs(a, b, z) + a * a * discs(a, a, z)
    }
}

/// ∫₀^∞ J₁(ka) J₁(kb) e^(-kz) dk/k without its oscillations: by Neumann's addition theorem and by
/// parts it is `ab/π ∫₀^π sin²φ / (s (z + s)) dφ`, s² = z² + a² + b² - 2ab cos φ.
fn discs(a: f64, b: f64, z: f64) -> f64 {
    if a == 0.0 {
        return 0.0;
    }
    let under = |phi: f64| {
        // (a-b)² + 4ab sin²(φ/2) keeps its digits where the two are close.
        let near = (phi / 2.0).sin();
        let s = (z * z + (a - b) * (a - b) + 4.0 * a * b * near * near).sqrt();
        let across = phi.sin();
        across * across / (s * (z + s))
    };
    a * b / PI * quillet_geometry::integral(0.0, PI, under)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share(outside_mm: f64, hole_mm: f64, thick_mm: f64, gap_mm: f64) -> f64 {
        let magnet = Magnet {
            outside_mm,
            hole_mm,
            thick_mm,
        };
        magnet.share_at(gap_mm).unwrap()
    }

    /// ∫₀^∞ J₁²(x) dx/x = 1/2, and J₁(ka)J₁(kb) gives the lesser over twice the greater (Weber and
    /// Schafheitlin, in any table of integrals).
    #[test]
    fn faces_in_one_plane_have_closed_forms() {
        assert!((discs(3.0, 3.0, 0.0) - 0.5).abs() < 1e-12);
        assert!((discs(2.0, 5.0, 0.0) - 0.2).abs() < 1e-12);
        // Far away two dipoles: J₁(x) ~ x/2, ∫ k ab/4 e^(-kz) dk = ab / 4z².
        assert!((discs(1.0, 2.0, 1000.0) * 4.0 * 1e6 / 2.0 - 1.0).abs() < 1e-4);
    }

    #[test]
    fn a_ring_loses_a_third_in_a_fifth_of_a_millimetre() {
        let ring = |gap| share(14.0, 11.4, 1.5, gap);
        assert!((ring(0.2) - 0.63).abs() < 0.01, "{}", ring(0.2));
        assert_eq!(ring(0.0), 1.0);
        assert!(ring(0.1) > ring(0.2) && ring(0.2) > ring(2.0));
    }

    #[test]
    fn what_cannot_be_has_no_pull() {
        let good = Magnet {
            outside_mm: 3.0,
            hole_mm: 0.0,
            thick_mm: 2.0,
        };
        for bad in [
            Magnet {
                hole_mm: 3.0,
                ..good
            },
            Magnet {
                thick_mm: 0.0,
                ..good
            },
            Magnet {
                outside_mm: f64::NAN,
                ..good
            },
            Magnet {
                outside_mm: f64::INFINITY,
                ..good
            },
        ] {
            assert_eq!(bad.share_at(0.2), None, "{bad:?}");
        }
        assert_eq!(good.share_at(-0.1), None);
        assert_eq!(good.share_at(f64::NAN), None);
    }
}
