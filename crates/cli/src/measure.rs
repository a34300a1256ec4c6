//! `quillet measure`: what every part holds, weighs and leaves of wall, and every pen put together.

mod pens;
mod profiles;

use crate::answer::Format;
use crate::{disk, say};
use quillet_check::{Role, Wall, walls};
use quillet_model::{Design, Part};
use serde::Serialize;
use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

use pens::PenMeasures;
use profiles::Profiles;

/// What `quillet measure` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// The file
    file: PathBuf,
    /// How to print the measures
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// Show the long lists too: every wall, every clearance
    #[arg(long)]
    full: bool,
    /// Print the profiles of every pen's parts as JSON, for a solid modeller to rebuild
    #[arg(long)]
    profiles: bool,
}

/// Prints; 0, or 2 where the file cannot be read.
pub(crate) fn run(args: &Args) -> ExitCode {
    let design = match disk::design(&args.file) {
        Ok(design) => design,
        Err(reason) => return say::ended(Err(reason)),
    };
    if design.parts.is_empty() {
        return say::ended(Err("there is no part in this file to measure".into()));
    }
    say::ended(match (args.profiles, args.format) {
        (true, _) => say::json(&json(&Profiles::of(&design))),
        (false, Format::Text) => say::out(&Measures::of(&design).text(args.full)),
        (false, Format::Json) => say::json(&json(&Measures::of(&design))),
    })
}

fn json(measures: &impl Serialize) -> String {
    serde_json::to_string_pretty(measures)
        .map_or_else(|error| error.to_string(), |text| text + "\n")
}

#[derive(Serialize)]
struct Measures {
    parts: Vec<PartMeasures>,
    pens: Vec<PenMeasures>,
}

/// A part whose shape is not known has no volume; a bought one without a mass weighs nothing known.
#[derive(Serialize)]
struct PartMeasures {
    name: String,
    bought: bool,
    length_mm: f64,
    volume_mm3: Option<f64>,
    mass_g: Option<f64>,
    /// Of the volume, from the first end.
    centroid_mm: Option<f64>,
    /// Of the mass, from the first end.
    balance_mm: Option<f64>,
    walls: Vec<WallMeasures>,
}

#[derive(Serialize)]
struct WallMeasures {
    role: &'static str,
    outer: String,
    inner: String,
    from_mm: f64,
    to_mm: f64,
    least_mm: f64,
    at_mm: f64,
    /// With threads at their limits of size and drilled holes over size.
    worst_mm: f64,
}

impl Measures {
    fn of(design: &Design) -> Self {
        Self {
            parts: design
                .parts
                .iter()
                .map(|part| PartMeasures::of(part))
                .collect(),
            pens: design
                .pens
                .iter()
                .map(|pen| PenMeasures::of(design, pen))
                .collect(),
        }
    }

    /// For people; `full` with every wall and clearance.
    fn text(&self, full: bool) -> String {
        let mut out = String::new();
        for part in &self.parts {
            // Writing to memory does not fail.
            part.write(full, &mut out).ok();
        }
        for pen in &self.pens {
            pen.write(full, &mut out).ok();
        }
        out
    }
}

impl PartMeasures {
    fn of(part: &Part) -> Self {
        let solid = part
            .profiles
            .as_ref()
            .map(|profiles| profiles.metal.properties());
        let mass = part.weigh();
        let mut walls = if part.bought { Vec::new() } else { walls(part) };
        // What lies further apart than to the axis is no wall.
        walls.retain(|wall| wall.role == Role::End || wall.least <= wall.outer_dia.half());
        Self {
            name: part.name.text.to_string(),
            bought: part.bought,
            length_mm: part.length.to_mm(),
            volume_mm3: solid.map(|it| it.volume_mm3),
            mass_g: mass.map(|it| it.mass_g),
            centroid_mm: solid.map(|it| it.centroid_mm),
            balance_mm: mass.map(|it| it.centre_mm),
            walls: walls
                .iter()
                .map(|wall| WallMeasures::of(part, wall))
                .collect(),
        }
    }

    fn write(&self, full: bool, out: &mut String) -> std::fmt::Result {
        let bought = if self.bought { " (bought)" } else { "" };
        writeln!(out, "{}{bought}", self.name)?;
        writeln!(out, "  length    {:9.2} mm", self.length_mm)?;
        let lines = [
            ("volume", self.volume_mm3, "mm³"),
            ("mass", self.mass_g, "g"),
            ("centroid", self.centroid_mm, "mm from the first end"),
            ("balance", self.balance_mm, "mm from the first end"),
        ];
        for (what, value, unit) in lines {
            if let Some(value) = value {
                writeln!(out, "  {what:8}  {value:9.2} {unit}")?;
            }
        }
        if !full {
            return writeln!(out);
        }
        if !self.walls.is_empty() {
            writeln!(
                out,
                "  walls     least, at the limits of size, from, to, between"
            )?;
        }
        for wall in &self.walls {
            writeln!(
                out,
                "    {:7.3} {:7.3} mm  {:6.2} to {:6.2}  {} over {} ({})",
                wall.least_mm,
                wall.worst_mm,
                wall.from_mm,
                wall.to_mm,
                wall.outer,
                wall.inner,
                wall.role
            )?;
        }
        writeln!(out)
    }
}

impl WallMeasures {
    fn of(part: &Part, wall: &Wall) -> Self {
        Self {
            role: wall.role.words(),
            outer: wall.outer_words(part),
            inner: wall.inner_words(part),
            from_mm: wall.from.to_mm(),
            to_mm: wall.to.to_mm(),
            least_mm: wall.least.to_mm(),
            at_mm: wall.at.to_mm(),
            worst_mm: wall.worst(part).to_mm(),
        }
    }
}
