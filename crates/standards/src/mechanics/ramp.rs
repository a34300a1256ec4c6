//! Drawing a ridge over a ramp.

use super::sound;

/// The axial force per unit of radial force that draws a ridge up a ramp: `(μ + tan α) / (1 - μ
/// tan α)`, the wedge with friction of any textbook of statics.
///
/// `ramp_deg` from 0 to 90 from the axis, of the flank that it leaves by; none where it locks, at
/// `μ tan α >= 1`.
pub fn axial_share(ramp_deg: f64, friction: f64) -> Option<f64> {
    let slope = ramp_deg.to_radians().tan();
    let free = 1.0 - friction * slope;
    let possible = (0.0..90.0).contains(&ramp_deg) && friction >= 0.0 && free > 0.0;
    possible.then(|| sound((friction + slope) / free)).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 0.25 and a slope of 1/4: (0.25 + 0.25) / (1 - 0.0625) = 8/15.
    #[test]
    fn a_wedge_by_hand() {
        let slope = 0.25_f64.atan().to_degrees();
        assert!((axial_share(slope, 0.25).unwrap() - 8.0 / 15.0).abs() < 1e-15);
        assert_eq!(axial_share(0.0, 0.25), Some(0.25));
        assert_eq!(axial_share(76.5, 0.25), None, "it locks");
        for (ramp, friction) in [(90.0, 0.0), (-1.0, 0.2), (f64::NAN, 0.2), (10.0, f64::NAN)] {
            assert_eq!(axial_share(ramp, friction), None);
        }
    }
}
