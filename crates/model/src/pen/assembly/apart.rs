//! How far apart two parts are, as a true distance.

use super::{Configuration, Placement};
use crate::{Part, PartId, Parts};
use quillet_geometry::{Bounds, Chain, Curve};

impl Configuration {
    /// The least true distance between two of the pen's parts in this configuration, mm; 0 where
    /// they touch or where threads lie in each other, none where one of them is not there.
    pub fn apart_mm(&self, parts: &Parts, one: PartId, other: PartId) -> Option<f64> {
        let surface = |part: PartId| Some(surface(parts.get(part)?, (*self.places.get(part)?)?));
        let (one, other) = (surface(one)?, surface(other)?);
        let mut least = f64::INFINITY;
        for (a, near) in &one {
            for (b, far) in &other {
                if near.distance(far) < least {
                    least = least.min(a.approach(b).distance_mm);
                }
            }
        }
        least.is_finite().then_some(least)
    }
}

/// All of a part's surface on a common axis, threads at their crests.
fn surface(part: &Part, place: Placement) -> Vec<(Curve, Bounds)> {
    let outline = part.outline();
    let radii = outline.radii.outer.iter().chain(&outline.radii.inner);
    let along = radii.flat_map(Chain::segments).map(|segment| segment.curve);
    let faces = outline
        .pieces
        .iter()
        .map(|piece| piece.curve)
        .filter(Curve::is_vertical);
    let laid = along.chain(faces).map(|curve| match place.reversed {
        false => curve.moved(place.offset_mm),
        true => curve.reversed(place.offset_mm),
    });
    laid.map(|curve| (curve, curve.bounds())).collect()
}
