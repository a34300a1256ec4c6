//! What a length of engaged thread bears before it strips.

use std::f64::consts::PI;

use quillet_geometry::Length;

use super::class::ThreadSide;
use super::form::ThreadForm;
use crate::Source;

/// The area that shears when a thread strips, mm² for each millimetre of engagement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShearAreas {
    /// Of the outside thread, at the inside thread's minor diameter.
    pub external_mm2_per_mm: f64,
    /// Of the inside thread, at the outside thread's major diameter.
    pub internal_mm2_per_mm: f64,
    /// Where the formulas come from.
    pub source: Source,
}

impl ThreadForm {
    /// The areas that shear, at the limits of the classes said (or 6g and 6H, 2A and 2B) that leave
    /// least: with n threads in a unit of length,
    /// external π·n·D1max·(1/2n + 0.57735·(d2min − D1max)),
    /// internal π·n·dmin·(1/2n + 0.57735·(dmin − D2max)), ASME B1.1 (thread shear areas).
    /// At basic sizes where the standard does not have the class. Starts change nothing: they stand
    /// between each other's ridges.
    pub fn shear_areas(&self) -> ShearAreas {
        let outside = self.external_limits(self.class(ThreadSide::External));
        let inside = self.internal_limits(self.class(ThreadSide::Internal));
        let (major, pitch) = match &outside {
            Ok(limits) => (limits.major.min(), limits.pitch.min()),
            Err(_) => (self.major(), self.pitch_diameter()),
        };
        let (minor, inside_pitch) = match &inside {
            Ok(limits) => (limits.minor.max(), limits.pitch.max()),
            Err(_) => (self.minor_diameter(), self.pitch_diameter()),
        };
        ShearAreas {
            external_mm2_per_mm: sheared(self.pitch_mm(), minor, pitch - minor),
            internal_mm2_per_mm: sheared(self.pitch_mm(), major, major - inside_pitch),
            source: SHEAR,
        }
    }
}

/// The area at a diameter that lies so far within the pitch diameter's flank; never less than none.
fn sheared(pitch_mm: f64, dia: Length, within: Length) -> f64 {
    let ridge = pitch_mm / 2.0 + TAN_30 * within.to_mm();
    PI * dia.to_mm() * (ridge / pitch_mm).clamp(0.0, 1.0)
}

/// The tangent of a 60° thread's flank angle.
const TAN_30: f64 = 0.577_350_269_189_625_8;

const SHEAR: Source = Source::new("ASME B1.1, thread shear areas (geometric least)");

#[cfg(test)]
mod tests {
    use super::*;

    fn areas(designation: &str) -> (f64, f64) {
        let form: ThreadForm = designation.parse().unwrap();
        let areas = form.shear_areas();
        (areas.external_mm2_per_mm, areas.internal_mm2_per_mm)
    }

    /// 1/4-20 UNC-2A/2B by hand, limits of ASME B1.1 in inches (d 0.2408, d2 0.2127, D1 0.2070,
    /// D2 0.2224): external π·20·0.2070·(1/40 + 0.57735·0.0057) = 0.3680, internal
    /// π·20·0.2408·(1/40 + 0.57735·0.0184) = 0.5390 in² an inch; tables of stripping areas print
    /// 0.368 and 0.539 (from memory).
    #[test]
    fn a_quarter_inch_screw_by_hand() {
        let (external, internal) = areas("1/4-20UNC");
        assert!((external / 25.4 - 0.368).abs() < 0.0005, "{external}");
        assert!((internal / 25.4 - 0.539).abs() < 0.0005, "{internal}");
    }

    /// The least ridge is half a pitch and some: between a half and all of the cylinder.
    #[test]
    fn a_ridge_is_more_than_half_a_pitch_thick_where_it_shears() {
        for designation in ["M10x0.75", "M13x0.8 starts 3", "M7.4x0.5", "7/16-14UNC"] {
            let form: ThreadForm = designation.parse().unwrap();
            let cylinder = PI * form.major().to_mm();
            let (external, internal) = areas(designation);
            assert!((0.4..0.8).contains(&(external / cylinder)), "{designation}");
            assert!((0.5..0.9).contains(&(internal / cylinder)), "{designation}");
            assert!(external < internal, "{designation}");
        }
    }

    #[test]
    fn starts_change_nothing_and_a_coarser_pitch_little() {
        assert_eq!(areas("M13x0.8"), areas("M13x0.8 starts 3"));
        let (fine, coarse) = (areas("M10x0.75"), areas("M10x1.5"));
        assert!((fine.0 / coarse.0 - 1.0).abs() < 0.2);
    }
}
