//! Where along the outside which flats cut: what meshes and surfaces alike are made of.

use quillet_geometry::section::{Flats, Section, section_at};
use quillet_geometry::{Curve, Point};

/// Shorter than this is no stretch, mm.
const NOTHING: f64 = 1e-9;

/// A piece of the outside on which the same sets of flats cut alike.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    pub(super) curve: Curve,
    /// The sets in force on it, whether they reach it or not.
    pub(super) flats: Vec<Flats>,
}

/// A curve of the outside in stretches: each ends where a set begins or ends, where it comes through the
/// outside, or where neighbours of one set begin to meet.
pub(super) fn stretches(curve: &Curve, sets: &[Flats]) -> Vec<Stretch> {
    let (start, end) = (curve.start().z, curve.end().z);
    let mut stations: Vec<f64> = sets.iter().flat_map(|set| set.stations(curve)).collect();
    stations.retain(|z| start < *z && *z < end);
    stations.extend([start, end]);
    stations.sort_by(f64::total_cmp);
    let far = |pair: &&[f64]| pair[1] - pair[0] > NOTHING;
    let pairs = stations.windows(2).filter(far);
    pairs
        .filter_map(|pair| {
            let middle = (pair[0] + pair[1]) / 2.0;
            let here = |set: &&Flats| set.from_mm <= middle && middle <= set.to_mm;
            Some(Stretch {
                curve: curve.between(pair[0], pair[1])?,
                flats: sets.iter().filter(here).copied().collect(),
            })
        })
        .collect()
}

/// The section at a place of the outside where some sets are in force; none where a flat reaches the axis.
pub(super) fn section(place: Point, sets: &[Flats]) -> Option<Section> {
    section_at(within(place, sets), sets)
}

/// The same place, where at the end of a stretch it lies beside it by a rounding.
pub(super) fn within(place: Point, sets: &[Flats]) -> Point {
    let from = sets.iter().map(|set| set.from_mm).fold(place.z, f64::max);
    let to = sets.iter().map(|set| set.to_mm).fold(from, f64::min);
    Point::new(place.z.clamp(from.min(to), from.max(to)), place.r)
}
