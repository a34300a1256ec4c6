//! How a part gives where something presses on it.

use crate::{Material, Part};
use quillet_geometry::Length;
use quillet_standards::mechanics::Elastic;

/// How far beside a surface its material is asked for, mm.
pub(super) const NEAR_MM: f64 = 1e-3;

/// The material of a part at a place; none where what it is cut from is not known.
pub(super) fn material_at(part: &Part, station_mm: f64, radius_mm: f64) -> Option<&Material> {
    let material = part.material_in(Length::mm(station_mm), Length::mm(radius_mm))?;
    Some(material)
}

/// How a material gives; none where its modulus is not known.
pub(super) fn elastic(material: &Material) -> Option<Elastic> {
    let (poisson, _) = material.kind.poisson();
    Some(Elastic {
        modulus_gpa: material.modulus_gpa?,
        poisson,
    })
}
