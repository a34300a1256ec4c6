//! An O-ring squeezed between two cylinders.

use std::f64::consts::PI;

use super::sound;
use crate::Source;

/// The load on a squeezed rubber ring.
pub const SOURCE: Source = Source::new(
    "Lindley, Load-compression relationships of rubber units, J. Strain Analysis 1 (1966), from memory",
);

/// Young's modulus of a rubber of 70 IRHD, MPa (from memory).
pub const MODULUS_MPA: f64 = 5.5;

/// Friction of a greased O-ring that begins to slide (common practice, no published source).
pub const FRICTION: f64 = 0.3;

/// The axial force that makes a squeezed ring slide, N: friction times Lindley's load
/// `π D d E (1.25 C^1.5 + 50 C⁶)`.
///
/// `mean_mm` is the diameter of the middle of the cord, `cord_mm` the cord's, `squeeze` the share
/// of the cord that it is flattened by, 0 to 0.5.
pub fn hold_n(mean_mm: f64, cord_mm: f64, squeeze: f64) -> Option<f64> {
    let possible = mean_mm > cord_mm && cord_mm > 0.0 && (0.0..=0.5).contains(&squeeze);
    let shape = 1.25 * squeeze.powf(1.5) + 50.0 * squeeze.powi(6);
    let load = PI * mean_mm * cord_mm * MODULUS_MPA * shape;
    possible.then(|| sound(FRICTION * load)).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ⌀11.6, cord 1.2, 15 %: 0.15^1.5 = 0.0580948, × 1.25 = 0.0726185; 50 × 0.15⁶ = 0.000569531;
    /// π × 11.6 × 1.2 × 5.5 = 240.52; × 0.0731880 × 0.3 = 5.281 N.
    #[test]
    fn a_squeezed_ring_by_hand() {
        assert!((hold_n(11.6, 1.2, 0.15).unwrap() - 5.281).abs() < 0.001);
        assert_eq!(hold_n(11.6, 1.2, 0.0), Some(0.0));
        for bad in [-0.01, 0.51, f64::NAN] {
            assert_eq!(hold_n(11.6, 1.2, bad), None);
        }
        assert_eq!(hold_n(1.0, 1.2, 0.15), None);
        assert_eq!(hold_n(f64::INFINITY, 1.2, 0.15), None);
    }
}
