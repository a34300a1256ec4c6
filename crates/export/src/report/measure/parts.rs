//! What a part by itself measures.

use super::walls::PartWalls;
use super::wants::WantMeasures;
use quillet_check::CheckReport;
use quillet_geometry::Mass;
use quillet_model::{AcrossFlats, Design, Doubts, Hand, Part, PartId, Profiles};
use serde::Serialize;
use std::sync::Arc;

/// A part; what rests on something missing is null.
#[derive(Serialize)]
pub(super) struct PartMeasures {
    pub(super) name: String,
    pub(super) bought: bool,
    pub(super) length_mm: Option<f64>,
    pub(super) volume_mm3: Option<f64>,
    /// O-rings in its grooves with it, where a pen has them.
    pub(super) mass_g: Option<f64>,
    /// From what to what it may lie, by the density and the accuracy of the hand.
    pub(super) mass_range_g: Option<[f64; 2]>,
    /// Of the volume, from the first end.
    pub(super) centroid_mm: Option<f64>,
    /// Of the mass, from the first end.
    pub(super) balance_mm: Option<f64>,
    pub(super) walls: PartWalls,
    /// Its sets of flats.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) flats: Vec<FlatsMeasures>,
    /// What is missing to tell all of it.
    pub(super) missing: Option<&'static str>,
    /// What it is wanted to be, where it is in no pen.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) wants: Vec<WantMeasures>,
    /// The part itself, to know it again.
    #[serde(skip)]
    pub(super) same: Arc<Part>,
}

/// A set of flats, at both ends of its stretch.
#[derive(Serialize)]
pub(super) struct FlatsMeasures {
    pub(super) count: u32,
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
    /// Twice the distance of a flat from the axis.
    pub(super) across_mm: [f64; 2],
    /// Across corners, or the round between flats.
    pub(super) corners_mm: [f64; 2],
}

impl PartMeasures {
    /// As the file's own `let`s give it.
    pub(super) fn alone(design: &Design, examined: &CheckReport, part: &Arc<Part>) -> Self {
        let in_pen = || {
            let mut parts = design.pens.iter().flat_map(|pen| &pen.parts);
            parts.any(|it| it.name.text == part.name.text)
        };
        let bench = design.bench(part.bench.as_ref()).map(AsRef::as_ref);
        let hand = Hand::at(bench);
        let doubts = Doubts::alone(part, &hand);
        let wants = examined
            .wants_of_part(&part.name.text)
            .filter(|_| !in_pen());
        Self {
            wants: wants.map(WantMeasures::of).collect(),
            mass_range_g: range(&doubts, PartId::ALONE),
            ..Self::of(part, &hand, part.weigh())
        }
    }

    /// With what it weighs, made by a hand; from what to what that may lie is for the caller to say.
    pub(super) fn of(part: &Arc<Part>, hand: &Hand, mass: Option<Mass>) -> Self {
        let profiles = part.profiles.as_ref().filter(|_| part.shaped);
        let solid = profiles.map(Profiles::properties);
        Self {
            name: part.name.text.to_string(),
            bought: part.is_bought(),
            length_mm: part.length.is_positive().then(|| part.length.to_mm()),
            volume_mm3: solid.map(|it| it.volume_mm3),
            mass_g: mass.map(|it| it.mass_g),
            mass_range_g: None,
            centroid_mm: solid.map(|it| it.centroid_mm),
            balance_mm: mass.map(|it| it.centre_mm),
            walls: PartWalls::of(part, hand),
            flats: profiles.map_or_else(Vec::new, FlatsMeasures::all),
            missing: part.lacks_mass().map(quillet_model::MissingData::words),
            wants: Vec::new(),
            same: part.clone(),
        }
    }
}

/// From what to what the mass of a part may lie, by its place among those in doubt; none where
/// nothing of it is.
pub(super) fn range(doubts: &Doubts, part: PartId) -> Option<[f64; 2]> {
    let (low, high) = doubts.of_part(part)?;
    Some([low, high])
}

impl FlatsMeasures {
    fn all(profiles: &Profiles) -> Vec<Self> {
        let of = |it: &AcrossFlats| Self {
            count: it.count,
            from_mm: it.stretch_mm[0],
            to_mm: it.stretch_mm[1],
            across_mm: it.across_mm,
            corners_mm: it.corners_mm,
        };
        profiles.across_flats().iter().map(of).collect()
    }
}
