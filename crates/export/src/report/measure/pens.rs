//! What a pen put together measures.

use super::joints::{JointMeasures, TouchMeasures};
use super::made::MadeMeasures;
use super::parts::{PartMeasures, range};
use super::wants::WantMeasures;
use quillet_check::CheckReport;
use quillet_geometry::Mass;
use quillet_model::{Air, Configuration, Configured, Design, Doubts, PartId, Pen, SeatedRing};
use serde::Serialize;

/// A pen; what rests on something missing is null.
#[derive(Serialize)]
pub(super) struct PenMeasures {
    pub(super) name: String,
    pub(super) title: Option<String>,
    pub(super) configurations: Configurations,
    pub(super) joints: Vec<JointMeasures>,
    pub(super) parts: Vec<PartPlaces>,
    pub(super) ink: Option<InkMeasures>,
    pub(super) air: Option<AirMeasures>,
    pub(super) rings: Vec<RingMeasures>,
    pub(super) wants: Vec<WantMeasures>,
    /// What was made of it, where it is one that was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) made: Option<MadeMeasures>,
    /// Parts that hang together with neither body nor cap.
    pub(super) loose: Vec<String>,
    /// What is missing to tell all of it.
    pub(super) missing: Vec<String>,
}

#[derive(Serialize)]
pub(super) struct Configurations {
    pub(super) capped: Option<ConfigurationMeasures>,
    pub(super) uncapped: Option<ConfigurationMeasures>,
    pub(super) posted: Option<ConfigurationMeasures>,
    /// Where a mechanism throws something.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) retracted: Option<ConfigurationMeasures>,
    /// Where it rests in a stand, from the top down.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) resting: Option<ConfigurationMeasures>,
}

/// From the writing point, or from the foremost face of a capped pen.
#[derive(Serialize)]
pub(super) struct ConfigurationMeasures {
    pub(super) length_mm: Option<f64>,
    /// Filled.
    pub(super) mass_g: Option<f64>,
    /// From what to what it may lie, by densities and the accuracy of the hand.
    pub(super) mass_range_g: Option<[f64; 2]>,
    pub(super) balance_mm: Option<f64>,
    pub(super) balance_range_mm: Option<[f64; 2]>,
    /// The balance point over the length.
    pub(super) balance_share: Option<f64>,
    axial_g_mm2: Option<f64>,
    /// About the balance point.
    transverse_g_mm2: Option<f64>,
    pub(super) dry_mass_g: Option<f64>,
    pub(super) dry_balance_mm: Option<f64>,
}

/// A part as the pen sees it, and where its first end lies in each configuration.
#[derive(Serialize)]
pub(super) struct PartPlaces {
    #[serde(flatten)]
    pub(super) part: PartMeasures,
    places: Vec<PlaceMeasures>,
}

#[derive(Serialize)]
struct PlaceMeasures {
    configuration: &'static str,
    at_mm: f64,
    reversed: bool,
}

#[derive(Serialize)]
pub(super) struct InkMeasures {
    pub(super) ml: f64,
    pub(super) mass_g: f64,
    pub(super) part: String,
    pub(super) stands_in: Vec<InkInMeasures>,
}

/// What stands in one part.
#[derive(Serialize)]
pub(super) struct InkInMeasures {
    pub(super) part: String,
    pub(super) ml: f64,
}

impl InkMeasures {
    /// Where it stands, in words: with how much in each where it is more than one.
    pub(super) fn stands(&self) -> String {
        match self.stands_in.as_slice() {
            [] | [_] => self.part.clone(),
            all => {
                let each = all.iter().map(|it| format!("{} ({:.2})", it.part, it.ml));
                each.collect::<Vec<_>>().join(", ")
            }
        }
    }
}

#[derive(Serialize)]
pub(super) struct AirMeasures {
    pub(super) volume_mm3: f64,
    pub(super) sealed_by: Option<TouchMeasures>,
}

#[derive(Serialize)]
pub(super) struct RingMeasures {
    pub(super) ring: String,
    pub(super) part: String,
    pub(super) squeeze: Option<f64>,
    pub(super) stretch: Option<f64>,
    pub(super) fill: Option<f64>,
}

impl RingMeasures {
    fn of(it: &SeatedRing, part: String) -> Self {
        Self {
            ring: it.ring.name.text.to_string(),
            part,
            squeeze: it.seal.map(|seal| seal.squeeze),
            stretch: it.seal.map(|seal| seal.stretch),
            fill: it.seal.map(|seal| seal.fill),
        }
    }
}

impl PenMeasures {
    pub(super) fn of(design: &Design, examined: &CheckReport, pen: &Pen) -> Self {
        let assembly = &pen.assembly;
        let doubts = pen.doubts();
        let configured = |it: Configured| {
            let it = assembly.configuration(it)?;
            Some(ConfigurationMeasures::of(pen, it, &doubts))
        };
        let name = |part: PartId| pen.parts[part].name.text.to_string();
        let joints = pen.joints.iter().zip(&assembly.joints);
        let wants = examined.wants_of_pen(&pen.name.text);
        let rings = assembly.rings.iter().filter(|_| pen.is_settled());
        Self {
            name: pen.name.text.to_string(),
            title: pen.title.as_ref().map(|title| title.text.to_string()),
            configurations: Configurations {
                capped: configured(Configured::Capped),
                uncapped: configured(Configured::Uncapped),
                posted: configured(Configured::Posted),
                retracted: configured(Configured::Retracted),
                resting: configured(Configured::Resting),
            },
            joints: joints
                .map(|(joint, rest)| JointMeasures::of(design, pen, joint, rest))
                .collect(),
            parts: pen
                .parts
                .ids()
                .map(|part| PartPlaces::of(pen, part, &doubts))
                .collect(),
            ink: assembly.ink.as_ref().map(|ink| InkMeasures {
                ml: ink.capacity_ml,
                mass_g: ink.mass_g,
                part: name(ink.part),
                stands_in: ink
                    .stands_in
                    .iter()
                    .map(|it| InkInMeasures {
                        part: name(it.part),
                        ml: it.ml,
                    })
                    .collect(),
            }),
            air: assembly.air.as_ref().map(|air| AirMeasures::of(pen, air)),
            rings: rings
                .map(|it| RingMeasures::of(it, name(it.part)))
                .collect(),
            wants: wants.map(WantMeasures::of).collect(),
            made: MadeMeasures::of(design, pen),
            loose: assembly
                .loose
                .iter()
                .flatten()
                .map(|part| name(*part))
                .collect(),
            missing: pen.unknown().iter().map(|it| it.words(pen)).collect(),
        }
    }
}

impl ConfigurationMeasures {
    fn of(pen: &Pen, it: &Configuration, doubts: &Doubts) -> Self {
        let range = |figure: fn(Mass) -> f64| {
            let (low, high) = doubts.of_pen(pen, it, figure)?;
            Some([low, high])
        };
        Self {
            mass_range_g: range(|it| it.mass_g),
            balance_range_mm: range(|it| it.centre_mm),
            length_mm: it.length_mm,
            mass_g: it.filled.map(|it| it.mass_g),
            balance_mm: it.filled.map(|it| it.centre_mm),
            balance_share: it.balance_share(),
            axial_g_mm2: it.filled.map(|it| it.axial_g_mm2),
            transverse_g_mm2: it.filled.map(|it| it.transverse_g_mm2),
            dry_mass_g: it.dry.map(|it| it.mass_g),
            dry_balance_mm: it.dry.map(|it| it.centre_mm),
        }
    }
}

impl PartPlaces {
    fn of(pen: &Pen, part: PartId, doubts: &Doubts) -> Self {
        let place = |it: Configured| {
            let place = pen.assembly.configuration(it)?.places[part]?;
            Some(PlaceMeasures {
                configuration: it.word(),
                at_mm: place.offset_mm,
                reversed: place.reversed,
            })
        };
        let places = Configured::ALL.into_iter().filter(|_| pen.is_settled());
        Self {
            part: PartMeasures {
                mass_range_g: range(doubts, part),
                ..PartMeasures::of(
                    &pen.parts[part],
                    &pen.hands[part],
                    pen.assembly.weights[part],
                )
            },
            places: places.filter_map(place).collect(),
        }
    }
}

impl AirMeasures {
    fn of(pen: &Pen, air: &Air) -> Self {
        let seal = air
            .seal
            .as_ref()
            .filter(|_| !air.open_ended && !air.is_vented());
        Self {
            volume_mm3: air.volume_mm3,
            sealed_by: seal.map(|touch| TouchMeasures::of(pen, touch)),
        }
    }
}
