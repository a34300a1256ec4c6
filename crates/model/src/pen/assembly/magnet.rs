//! Magnets that hold a cap: one on each side of the joint, facing each other.

use super::contact::{Member, TOUCHING_MM};
use super::settle::SeatedJoint;
use crate::{Part, PartId, Parts};
use quillet_geometry::Length;
use quillet_standards::mechanics::magnet::Magnet;

/// Two magnets that face each other over a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MagnetPair {
    /// The one that goes with what goes in.
    pub male: PartId,
    /// The one that goes with what receives it.
    pub female: PartId,
    /// Between their faces at rest, mm.
    pub gap_mm: f64,
}

/// The pair that lies nearest; none where a side has no magnet, or none lies ahead of another.
pub(super) fn facing(parts: &Parts, rest: &SeatedJoint) -> Option<MagnetPair> {
    let pulls = |it: &&Member| parts[it.part].pulls_n().is_some();
    let reach = |it: &Member| {
        let ends = [0.0, parts[it.part].length.to_mm()].map(|station| it.place.of(station));
        (ends[0].min(ends[1]), ends[0].max(ends[1]))
    };
    let pairs = rest.males.iter().filter(pulls).flat_map(|male| {
        let females = rest.females.iter().filter(pulls);
        females.map(move |female| MagnetPair {
            male: male.part,
            female: female.part,
            gap_mm: reach(female).0 - reach(male).1,
        })
    });
    let ahead = pairs
        .filter(|it| it.gap_mm >= -TOUCHING_MM)
        .map(|it| MagnetPair {
            gap_mm: it.gap_mm.max(0.0),
            ..it
        });
    ahead.min_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm))
}

impl MagnetPair {
    /// The pull in newtons over the gap: of two unlike ones that of the weaker.
    pub(super) fn pull_n(&self, parts: &Parts) -> Option<f64> {
        let of = |part: PartId| {
            let part = parts.get(part)?;
            Some(part.pulls_n()? * shape(part)?.share_at(self.gap_mm)?)
        };
        Some(of(self.male)?.min(of(self.female)?))
    }
}

/// A magnet as it is drawn: its fattest, its hole, its length.
fn shape(part: &Part) -> Option<Magnet> {
    let profiles = part.profiles.as_ref()?;
    let (from, to) = (Length::ZERO.to_mm(), part.length.to_mm());
    let (fattest, _) = profiles.crest.outer.fattest(from, to)?;
    Some(Magnet {
        outside_mm: 2.0 * fattest.r,
        hole_mm: 2.0 * profiles.crest.bore_radius((from + to) / 2.0),
        thick_mm: to - from,
    })
}
