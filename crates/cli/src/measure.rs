//! `quillet measure`: what every pen put together comes to, and what its parts hold, weigh and
//! leave of wall.

mod chain;
mod joints;
mod parts;
mod pens;
mod profiles;
mod text;
mod told;
mod wants;

use crate::answer::Format;
use crate::choice::UnitsChoice;
use crate::{disk, json, say, warn};
use parts::PartMeasures;
use pens::PenMeasures;
use profiles::Profiles;
use quillet_check::{Examined, examine};
use quillet_model::Design;
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet measure` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// The file, or - for standard input
    file: PathBuf,
    /// How to print the measures
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// Show the long lists too: every wall, what touches in each joint, every clearance
    #[arg(long)]
    full: bool,
    #[command(flatten)]
    units: UnitsChoice,
    /// Print the profiles of every pen's parts as JSON, for a solid modeller to rebuild
    #[arg(long)]
    profiles: bool,
}

/// Prints what is known; 0, 1 where the design has errors, 2 where the file cannot be read.
pub(crate) fn run(args: &Args) -> ExitCode {
    let design = match disk::design(&args.file) {
        Ok(design) => design,
        Err(reason) => return say::ended(Err(reason)),
    };
    let examined = examine(&design);
    let sound = warn::unsound(&examined);
    if design.parts.is_empty() {
        return say::ended(Err("there is no part in this file to measure".into()));
    }
    let measures = || Measures::of(&design, &examined);
    let told = match (args.profiles, args.format) {
        (true, _) => say::json(&json::exact(&Profiles::of(&design))),
        (false, Format::Text) => {
            say::out(&text::of(&measures(), args.full, args.units.of(&design)))
        }
        (false, Format::Json) => say::json(&json::rounded(&measures())),
    };
    match told {
        Ok(()) => sound,
        Err(reason) => say::ended(Err(reason)),
    }
}

#[derive(Serialize)]
struct Measures {
    /// How many errors the design has; what rests on them is null.
    errors: usize,
    parts: Vec<PartMeasures>,
    pens: Vec<PenMeasures>,
}

impl Measures {
    fn of(design: &Design, examined: &Examined) -> Self {
        let parts = design.parts.iter();
        let pens = design.pens.iter();
        Self {
            errors: examined.errors(),
            parts: parts
                .map(|part| PartMeasures::alone(design, examined, part))
                .collect(),
            pens: pens
                .map(|pen| PenMeasures::of(design, examined, pen))
                .collect(),
        }
    }
}
