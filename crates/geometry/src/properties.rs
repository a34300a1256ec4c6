//! What a solid of revolution holds: volume, centroid, moments, area and length of its outline.

use std::f64::consts::PI;

use crate::{Chain, Curve, gauss};

/// Volume, centroid and moments of inertia of a solid of revolution at unit density.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Properties {
    /// Volume, mm³.
    pub volume_mm3: f64,
    /// The centroid's station on the axis, mm.
    pub centroid_mm: f64,
    /// About the axis, ∫ (x² + y²) dV, mm⁵.
    pub axial_mm5: f64,
    /// About any axis square to it through the centroid, ∫ (x² + z²) dV, mm⁵.
    pub transverse_mm5: f64,
}

impl Properties {
    /// Of the space between the outer chains and the inner ones, which lie inside them.
    ///
    /// By Green's theorem in the meridian plane, an integral along each piece: π∫r² dz, π∫z r² dz,
    /// π∫z² r² dz and π/2∫r⁴ dz. Where an inner chain is outside the outer one the space counts
    /// as negative.
    pub fn between<'a>(
        outer: impl IntoIterator<Item = &'a Chain>,
        inner: impl IntoIterator<Item = &'a Chain>,
    ) -> Properties {
        let (outer, inner): (Vec<&Chain>, Vec<&Chain>) =
            (outer.into_iter().collect(), inner.into_iter().collect());
        // Moments are taken about a station on the solid, so that a far one costs no digits.
        let about = outer
            .iter()
            .chain(&inner)
            .map(|chain| chain.start().z)
            .next()
            .unwrap_or(0.0);
        let mut sums = [0.0; 4];
        for (chains, sign) in [(outer, 1.0), (inner, -1.0)] {
            for segment in chains.iter().flat_map(|chain| chain.segments()) {
                let part = moments(&segment.curve, about);
                (0..4).for_each(|at| sums[at] += sign * part[at]);
            }
        }
        let [square, first, second, fourth] = sums;
        let offset = if square == 0.0 { 0.0 } else { first / square };
        Properties {
            volume_mm3: PI * square,
            centroid_mm: about + offset,
            axial_mm5: PI / 2.0 * fourth,
            transverse_mm5: PI * (second - first * offset) + PI / 4.0 * fourth,
        }
    }

    /// Of the same space between two stations only: a glued stretch, the air in a cap.
    pub fn of_stretch(outer: &[Chain], inner: &[Chain], from_mm: f64, to_mm: f64) -> Properties {
        let clipped = |chains: &[Chain]| -> Vec<Chain> {
            chains
                .iter()
                .filter_map(|chain| chain.between(from_mm, to_mm))
                .collect()
        };
        Properties::between(&clipped(outer), &clipped(inner))
    }

    /// Of the solid between a chain and the axis.
    pub fn within(chain: &Chain) -> Properties {
        Properties::between([chain], [])
    }
}

/// ∫r² dz, ∫z r² dz, ∫z² r² dz, ∫r⁴ dz, with z from `about`.
fn moments(curve: &Curve, about: f64) -> [f64; 4] {
    if matches!(curve, Curve::Line(face) if face.start.z == face.end.z) {
        return [0.0; 4];
    }
    gauss::along(curve, |place, step| {
        let (z, square) = (place.z - about, place.r * place.r);
        [square, z * square, z * z * square, square * square].map(|value| value * step.z)
    })
}

/// The length of an outline and the area it sweeps.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Surface {
    /// Along the outline in the meridian plane, mm.
    pub length_mm: f64,
    /// Swept round the axis, mm² (Pappus), faces in the chain counted.
    pub area_mm2: f64,
}

impl Surface {
    /// Of a chain: lines and circles exactly, cubics and ellipses to about 1e-14.
    pub fn of(chain: &Chain) -> Surface {
        chain
            .segments()
            .iter()
            .fold(Surface::default(), |sum, segment| {
                let each =
                    |place: crate::Point, step: crate::Point| [step.norm(), place.r * step.norm()];
                let circular = |arc: &crate::Arc| arc.circle_radius_mm().is_some();
                let [length, swept] = match &segment.curve {
                    Curve::Line(_) => gauss::along(&segment.curve, each),
                    Curve::Arc(arc) if circular(arc) => gauss::along(&segment.curve, each),
                    _ => gauss::along_adaptively(&segment.curve, each),
                };
                Surface {
                    length_mm: sum.length_mm + length,
                    area_mm2: sum.area_mm2 + 2.0 * PI * swept,
                }
            })
    }
}
