//! The pen capped, uncapped and posted: where each part lies, how long it is, what it weighs.

use super::group::Groups;
use super::{Ink, Placement};
use crate::{ById, MissingData, PartId, Parts, Pen, Weights};
use quillet_geometry::Mass;

/// A pen in one configuration, on its own axis: zero at the foremost place, which is the writing
/// point or, capped, the crown; towards the tail positive.
#[derive(Clone, Debug, PartialEq)]
pub struct Configuration {
    /// Each part's place; none of parts that are not there.
    pub places: ById<PartId, Option<Placement>>,
    /// From the foremost place to the hindmost as it is drawn, mm: for pictures alone, since where
    /// something is missing it is drawn all the same.
    pub drawn_mm: f64,
    /// How long it is, mm; none where that rests on something missing.
    pub length_mm: Option<f64>,
    /// Filled with ink; none where that rests on something missing.
    pub filled: Option<Mass>,
    /// Without ink.
    pub dry: Option<Mass>,
    /// What is missing to tell all of it.
    pub unknown: Vec<Unknown>,
}

/// What is missing to tell a figure of a pen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unknown {
    /// A joint or a `let` of the pen could not be read.
    Joints,
    /// One of its parts lacks something.
    Part(PartId, MissingData),
}

impl Unknown {
    /// In a maker's words: `converter says no mass`.
    pub fn words(self, pen: &Pen) -> String {
        match self {
            Unknown::Joints => "not all of the pen could be read".to_owned(),
            Unknown::Part(index, lacks) => {
                let name = pen
                    .parts
                    .get(index)
                    .map_or("a part", |part| &part.name.text);
                format!("{name} {}", lacks.words())
            }
        }
    }
}

impl Configuration {
    /// The group of a part, turned so that the part's stations run to the tail, or `reversed` to
    /// the writing point.
    pub(crate) fn of(
        pen: &Pen,
        groups: &Groups,
        part: PartId,
        reversed: bool,
        weights: &Weights,
        ink: Option<&Ink>,
    ) -> Configuration {
        let parts = &pen.parts;
        let turned = groups.place(part).reversed != reversed;
        let axis = Placement {
            offset_mm: 0.0,
            reversed: turned,
        };
        let mut places: ById<PartId, Option<Placement>> = ById::filled(None, parts.len());
        for other in groups.with(part) {
            places[other] = Some(groups.place(other).then(axis));
        }
        let (front, back) = extent(parts, &places);
        for place in places.iter_mut().flatten() {
            *place = place.moved(-front);
        }
        let settled = pen.is_settled();
        let mut it = Configuration {
            unknown: unknown(pen, &places, weights),
            places,
            drawn_mm: back - front,
            length_mm: settled.then_some(back - front),
            filled: None,
            dry: None,
        };
        it.dry = it.weigh(weights, None).filter(|_| settled);
        it.filled = it.weigh(weights, ink).filter(|_| settled);
        it
    }

    /// Whether a part is there.
    pub fn holds(&self, part: PartId) -> bool {
        self.places.get(part).is_some_and(Option::is_some)
    }

    /// What the parts that are there weigh together, and the ink; none where one's mass is none.
    pub fn weigh(&self, weights: &Weights, ink: Option<&Ink>) -> Option<Mass> {
        let there = self.places.iter().zip(weights);
        let placed = there.filter_map(|(place, mass)| {
            let place = (*place)?;
            Some(mass.map(|mass| match place.reversed {
                false => mass.moved(place.offset_mm),
                true => mass.reversed(place.offset_mm),
            }))
        });
        let ink = ink.and_then(|ink| {
            let place = self.places[ink.part]?;
            Some(Mass::at(ink.mass_g, place.of(ink.at_mm)))
        });
        placed.chain(ink.map(Some)).sum()
    }

    /// Where a station of a part lies, mm from the foremost place; none where it is not there.
    pub fn z_mm(&self, part: PartId, station_mm: f64) -> Option<f64> {
        Some(self.places.get(part)?.as_ref()?.of(station_mm))
    }

    /// The balance point as a share of the length; none where one of the two is not known.
    pub fn balance_share(&self) -> Option<f64> {
        let length_mm = self.length_mm.filter(|it| *it > 0.0)?;
        Some(self.filled?.centre_mm / length_mm)
    }
}

/// What is missing in parts that are there.
fn unknown(pen: &Pen, places: &ById<PartId, Option<Placement>>, weights: &Weights) -> Vec<Unknown> {
    let of_pen = (!pen.whole).then_some(Unknown::Joints);
    let of_parts = pen.parts.with_ids().filter_map(|(index, part)| {
        let there = places[index].is_some();
        let lacks = match there {
            // Where parts come to rest hangs together, also with those laid aside.
            false => part.lacks_shape()?,
            true => part
                .lacks_mass()
                .or(weights[index].is_none().then_some(MissingData::Mass))?,
        };
        Some(Unknown::Part(index, lacks))
    });
    of_pen.into_iter().chain(of_parts).collect()
}

/// From the foremost place of all parts to the hindmost.
fn extent(parts: &Parts, places: &ById<PartId, Option<Placement>>) -> (f64, f64) {
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
