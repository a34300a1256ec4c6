//! Formulas of mechanics for what holds two parts together: one a file, each with its source.
//!
//! Every answer is an estimate, good to a factor of two: friction alone varies that much. None
//! where a size cannot be or an answer would be no number, so that no such number goes on.

pub mod finger;
pub mod magnet;
pub mod o_ring;
pub mod press;
pub mod ramp;
pub mod shell;

/// Friction between dry plastics, woods and metals as pens are made of (common practice, no
/// published source).
pub const FRICTION: f64 = 0.25;

/// How a material gives under load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elastic {
    /// Young's modulus, GPa.
    pub modulus_gpa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

impl Elastic {
    /// Young's modulus, MPa (N/mm²).
    pub fn modulus_mpa(self) -> f64 {
        1000.0 * self.modulus_gpa
    }

    /// True for a modulus over zero and a ratio that an isotropic solid can have.
    pub fn is_possible(self) -> bool {
        self.modulus_gpa > 0.0
            && self.modulus_gpa.is_finite()
            && self.poisson > -1.0
            && self.poisson <= 0.5
    }
}

/// The value where it is a number from 0 on.
fn sound(value: f64) -> Option<f64> {
    (value.is_finite() && value >= 0.0).then_some(value)
}
