//! What every pen put together comes to, and what its parts hold, weigh and leave of wall.

mod chain;
mod joints;
mod made;
mod parts;
mod pens;
mod text;
mod walls;
mod wants;

use super::SCHEMA_VERSION;
use parts::PartMeasures;
use pens::PenMeasures;
use quillet_check::{CheckReport, unstated};
use quillet_model::{Design, Pen, Units};
use serde::Serialize;

/// The measures of a design.
#[derive(Serialize)]
pub struct Measures {
    schema_version: u32,
    /// How many errors the design has; what rests on them is null.
    errors: usize,
    parts: Vec<PartMeasures>,
    pens: Vec<PenMeasures>,
    /// What the worst cases rest on where no bench says it.
    #[serde(skip)]
    unstated: Option<String>,
}

impl Measures {
    /// Of a design as it was examined; of the pen of a name and what it is put together of alone, where
    /// one is given.
    pub fn of(design: &Design, examined: &CheckReport, pen: Option<&str>) -> Self {
        let meant = |it: &&Pen| pen.is_none_or(|pen| *it.name.text == *pen);
        let pens = design.pens.iter().filter(meant);
        let own: Option<Vec<&str>> = pen.map(|_| {
            let parts = pens.clone().flat_map(|it| it.parts.iter());
            parts.map(|it| &*it.name.text).collect()
        });
        let parts = design.parts.iter();
        let parts = parts.filter(|it| own.as_ref().is_none_or(|own| own.contains(&&*it.name.text)));
        Self {
            schema_version: SCHEMA_VERSION,
            errors: examined.errors(),
            parts: parts
                .map(|part| PartMeasures::alone(design, examined, part))
                .collect(),
            pens: pens
                .map(|pen| PenMeasures::of(design, examined, pen))
                .collect(),
            unstated: unstated::of(design).map(|(_, text)| text),
        }
    }

    /// For people: the pens, then the parts that are in none; `full` with every wall and clearance.
    pub fn text(&self, full: bool, units: Units) -> String {
        text::of(self, full, units)
    }
}
