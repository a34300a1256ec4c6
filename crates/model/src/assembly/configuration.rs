//! The pen capped, uncapped and posted: where each part lies, how long it is, what it weighs.

use super::group::Groups;
use super::{Ink, Place};
use crate::Part;
use quillet_geometry::Mass;
use std::sync::Arc;

/// One of the ways in which a pen is carried or held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Configured {
    /// Closed.
    Capped,
    /// Open, the cap laid aside.
    Uncapped,
    /// Open, the cap on the tail.
    Posted,
}

impl Configured {
    /// All three, in the order they are told in.
    pub const ALL: [Configured; 3] = [Configured::Capped, Configured::Uncapped, Configured::Posted];

    /// The word as written: `capped`.
    pub fn word(self) -> &'static str {
        match self {
            Configured::Capped => "capped",
            Configured::Uncapped => "uncapped",
            Configured::Posted => "posted",
        }
    }

    /// The configuration of a word.
    pub fn named(word: &str) -> Option<Configured> {
        Configured::ALL.into_iter().find(|it| it.word() == word)
    }
}

/// A pen in one configuration, on its own axis: zero at the foremost place, which is the writing
/// point or, capped, the crown; towards the tail positive.
#[derive(Clone, Debug, PartialEq)]
pub struct Configuration {
    /// Each part's place, for each of `Pen::parts`; none of parts that are not there.
    pub places: Vec<Option<Place>>,
    /// From the foremost place to the hindmost, mm.
    pub length_mm: f64,
    /// Filled with ink.
    pub filled: Mass,
    /// Without ink.
    pub dry: Mass,
}

impl Configuration {
    /// The group of a part, turned so that the part's stations run to the tail, or `reversed` to
    /// the writing point.
    pub(crate) fn of(
        parts: &[Arc<Part>],
        groups: &Groups,
        part: usize,
        reversed: bool,
        weights: &[Option<Mass>],
        ink: Option<&Ink>,
    ) -> Configuration {
        let turned = groups.place(part).reversed != reversed;
        let axis = Place {
            offset_mm: 0.0,
            reversed: turned,
        };
        let mut places: Vec<Option<Place>> = vec![None; parts.len()];
        for other in groups.with(part) {
            places[other] = Some(groups.place(other).then(axis));
        }
        let (front, back) = extent(parts, &places);
        for place in places.iter_mut().flatten() {
            *place = place.moved(-front);
        }
        let weigh = |index: usize, place: &Option<Place>| {
            let (mass, place) = (weights[index]?, (*place)?);
            Some(match place.reversed {
                false => mass.moved(place.offset_mm),
                true => mass.reversed(place.offset_mm),
            })
        };
        let dry: Mass = places
            .iter()
            .enumerate()
            .filter_map(|(index, place)| weigh(index, place))
            .sum();
        let ink = ink.and_then(|ink| {
            let place = places[ink.part]?;
            Some(Mass::at(ink.mass_g, place.of(ink.at_mm)))
        });
        let filled = [dry].into_iter().chain(ink).sum();
        Configuration {
            places,
            length_mm: back - front,
            filled,
            dry,
        }
    }

    /// Where a station of a part lies, mm from the foremost place; none where it is not there.
    pub fn z_mm(&self, part: usize, station_mm: f64) -> Option<f64> {
        Some(self.places.get(part)?.as_ref()?.of(station_mm))
    }

    /// The balance point as a share of the length.
    pub fn balance_share(&self) -> f64 {
        match self.length_mm > 0.0 {
            true => self.filled.centre_mm / self.length_mm,
            false => 0.0,
        }
    }
}

/// From the foremost place of all parts to the hindmost.
fn extent(parts: &[Arc<Part>], places: &[Option<Place>]) -> (f64, f64) {
    let mut ends = (f64::INFINITY, f64::NEG_INFINITY);
    for (part, place) in parts.iter().zip(places) {
        let Some(place) = place else { continue };
        for station in [0.0, part.length.to_mm()] {
            let z = place.of(station);
            ends = (ends.0.min(z), ends.1.max(z));
        }
    }
    if ends.0 > ends.1 { (0.0, 0.0) } else { ends }
}
