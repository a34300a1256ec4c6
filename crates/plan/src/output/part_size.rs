//! Which size of a part, as it is written, a row of its route measures.

use crate::{Inspection, Measured, Operation, Work};
use quillet_geometry::Length;
use quillet_model::{CutId, Part, Station, StationId};

/// A size of a part that is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartSize {
    /// Its length over all.
    Length,
    /// The diameter of a cut.
    Dia(CutId),
    /// How deep a cut goes, or how far it reaches.
    Reach(CutId),
    /// The outside diameter at a station.
    Outside(StationId),
}

/// Places and diameters this near are those drawn.
const SAME: Length = Length::from_nm(1_000);

impl Operation {
    /// The written size that one of its checks measures; none where what is measured is written nowhere.
    pub fn measures(&self, part: &Part, check: &Inspection) -> Option<PartSize> {
        let cut = self.features.first().copied();
        match (check.what, &self.work) {
            (Measured::Length, _) => Some(PartSize::Length),
            (Measured::Depth { .. } | Measured::Point { .. }, _) => cut.map(PartSize::Reach),
            (_, Work::Inside(_) | Work::Turn(_)) => cut.map(PartSize::Dia),
            (Measured::Outside { end, at }, Work::Outside(_) | Work::Polish { .. }) => {
                let at = part.station(end, at);
                let here = |it: &Station| {
                    let drawn = it.dia - part.coat_on_dia();
                    (it.at - at).abs() <= SAME && (drawn - check.nominal).abs() <= SAME
                };
                let mut stations = part.stations.with_ids();
                let found = stations.find(|(_, it)| here(it));
                found.map(|(id, _)| PartSize::Outside(id))
            }
            _ => None,
        }
    }
}
