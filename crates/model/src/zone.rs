//! How far from an end a part is turned before its outside is shaped.

use crate::{Cut, End, Feature, Part};
use quillet_geometry::Length;

impl Part {
    /// How far the cuts outside, from an end's face on, follow each other without a gap: its tenons, threads
    /// and reliefs.
    pub fn zone(&self, end: End) -> Length {
        let mut cuts: Vec<&Feature> = self
            .features
            .iter()
            .filter(|it| it.end == end && !it.is_inside() && !matches!(it.cut, Cut::Edge(_)))
            .collect();
        cuts.sort_by_key(|it| it.from);
        cuts.iter()
            .fold(Length::ZERO, |reached, it| match it.from <= reached {
                true => reached.max(it.to),
                false => reached,
            })
    }

    /// Whether a cut is turned from its end before the outside is shaped.
    pub fn is_in_zone(&self, cut: &Feature) -> bool {
        let zone = self.zone(cut.end);
        match &cut.cut {
            Cut::Edge(_) => zone.is_positive(),
            _ => cut.to <= zone,
        }
    }
}
