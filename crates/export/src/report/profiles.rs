//! The profiles of a design's pens as plain numbers, for a solid modeller to rebuild.

use super::SCHEMA_VERSION;
use quillet_geometry::{Chain, Curve, Point};
use quillet_model::{Design, Part, PartId, Pen};
use serde::Serialize;

/// Every pen: its parts' bodies, where each part lies, and what we make of it.
#[derive(Serialize)]
pub struct Profiles {
    schema_version: u32,
    pens: Vec<PenProfiles>,
}

#[derive(Serialize)]
struct PenProfiles {
    name: String,
    parts: Vec<PartProfiles>,
    configurations: Vec<ConfigurationProfile>,
}

#[derive(Serialize)]
struct PartProfiles {
    name: String,
    /// A bought part is a body of unknown density that weighs so much.
    mass_g: Option<f64>,
    /// Where a bought part balances, where that is measured.
    balance_mm: Option<f64>,
    /// O-rings in its grooves, as points.
    rings: Vec<PointMass>,
    bodies: Vec<BodyProfile>,
}

/// A solid of revolution: the outside less the bores.
#[derive(Serialize)]
struct BodyProfile {
    density_g_cm3: Option<f64>,
    outer: Vec<Vec<SegmentProfile>>,
    inner: Vec<Vec<SegmentProfile>>,
}

/// Places are (z, r) in mm.
#[derive(Serialize)]
#[serde(rename_all = "lowercase", tag = "kind")]
enum SegmentProfile {
    Line {
        start: [f64; 2],
        end: [f64; 2],
    },
    /// Part of an ellipse with half axes along z and r.
    Arc {
        start: [f64; 2],
        end: [f64; 2],
        centre: [f64; 2],
        semi_z: f64,
        semi_r: f64,
        convex: bool,
    },
    /// A cubic Bezier curve.
    Cubic {
        points: [[f64; 2]; 4],
    },
}

#[derive(Serialize)]
struct ConfigurationProfile {
    name: &'static str,
    places: Vec<Option<PlaceProfile>>,
    ink: Option<PointMass>,
    mass_g: f64,
    balance_mm: f64,
    axial_g_mm2: f64,
    transverse_g_mm2: f64,
}

/// z = at ± station.
#[derive(Serialize)]
struct PlaceProfile {
    at_mm: f64,
    reversed: bool,
}

#[derive(Serialize)]
struct PointMass {
    mass_g: f64,
    at_mm: f64,
}

impl Profiles {
    /// Of all pens of a design.
    pub fn of(design: &Design) -> Self {
        Self {
            schema_version: SCHEMA_VERSION,
            pens: design.pens.iter().map(PenProfiles::of).collect(),
        }
    }
}

impl PenProfiles {
    fn of(pen: &Pen) -> Self {
        let configurations = quillet_model::Configured::ALL
            .into_iter()
            .filter_map(|word| {
                let it = pen.assembly.configuration(word)?;
                let filled = it.filled?;
                let ink = pen.assembly.ink.as_ref().and_then(|ink| {
                    let at_mm = it.z_mm(ink.part, ink.at_mm)?;
                    Some(PointMass {
                        mass_g: ink.mass_g,
                        at_mm,
                    })
                });
                let place = |place: &quillet_model::Placement| PlaceProfile {
                    at_mm: place.offset_mm,
                    reversed: place.reversed,
                };
                Some(ConfigurationProfile {
                    name: word.word(),
                    places: it.places.iter().map(|it| it.as_ref().map(place)).collect(),
                    ink,
                    mass_g: filled.mass_g,
                    balance_mm: filled.centre_mm,
                    axial_g_mm2: filled.axial_g_mm2,
                    transverse_g_mm2: filled.transverse_g_mm2,
                })
            });
        Self {
            name: pen.name.text.to_string(),
            parts: pen
                .parts
                .ids()
                .map(|part| PartProfiles::of(pen, part))
                .collect(),
            configurations: configurations.collect(),
        }
    }
}

impl PartProfiles {
    fn of(pen: &Pen, id: PartId) -> Self {
        let part: &Part = &pen.parts[id];
        let bodies = match (part.is_bought(), &part.profiles) {
            (false, _) => part
                .bodies()
                .iter()
                .map(|body| BodyProfile {
                    density_g_cm3: Some(body.density_g_cm3),
                    outer: body.outer.iter().map(pieces).collect(),
                    inner: body.inner.iter().map(pieces).collect(),
                })
                .collect(),
            (true, Some(profiles)) => vec![BodyProfile {
                density_g_cm3: None,
                outer: vec![pieces(&profiles.metal.outer)],
                inner: profiles.metal.inner.iter().map(pieces).collect(),
            }],
            (true, None) => Vec::new(),
        };
        let rings = pen
            .assembly
            .rings
            .iter()
            .filter(|it| it.part == id)
            .filter_map(|it| {
                let (from, to) = part.features[it.feature].stations(part.length);
                let at_mm = (from.to_mm() + to.to_mm()) / 2.0;
                Some(PointMass {
                    mass_g: it.ring.weigh()?.mass_g,
                    at_mm,
                })
            });
        Self {
            name: part.name.text.to_string(),
            mass_g: part.stated_mass().map(|it| it.mass_g),
            balance_mm: part.stated_mass().and_then(|it| it.at).map(|at| at.to_mm()),
            rings: rings.collect(),
            bodies,
        }
    }
}

fn pieces(chain: &Chain) -> Vec<SegmentProfile> {
    let at = |place: Point| [place.z, place.r];
    let piece = |curve: &Curve| match curve {
        Curve::Line(line) => SegmentProfile::Line {
            start: at(line.start),
            end: at(line.end),
        },
        Curve::Arc(arc) => SegmentProfile::Arc {
            start: at(arc.start()),
            end: at(arc.end()),
            centre: at(arc.centre()),
            semi_z: arc.semi_z_mm(),
            semi_r: arc.semi_r_mm(),
            convex: arc.is_convex(),
        },
        Curve::Cubic(cubic) => SegmentProfile::Cubic {
            points: cubic.points().map(at),
        },
    };
    chain
        .segments()
        .iter()
        .map(|segment| piece(&segment.curve))
        .collect()
}
