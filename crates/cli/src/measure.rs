//! `quillet measure`: what every pen put together comes to, and what its parts hold, weigh and
//! leave of wall.

use crate::answer::Format;
use crate::at::At;
use crate::choice::{PenChoice, UnitsChoice};
use crate::{terminal, warn};
use quillet_export::report::{Measures, Profiles, rounded};
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet measure` may be asked.
#[derive(clap::Args)]
pub(crate) struct MeasureArgs {
    /// The file, or - for standard input
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
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
pub(crate) fn run(args: &MeasureArgs) -> ExitCode {
    let analysis = match args.at.analysis(&args.file) {
        Ok(analysis) => analysis,
        Err(reason) => return terminal::ended(Err(reason)),
    };
    let (design, examined) = (&analysis.design, analysis.examined());
    let sound = warn::unsound(examined);
    if design.parts.is_empty() {
        return terminal::ended(Err("there is no part in this file to measure".into()));
    }
    if let Err(reason) = args.pen.pens(design) {
        return terminal::ended(Err(reason));
    }
    let measures = || Measures::of(design, examined, args.pen.pen.as_deref());
    let reported = match (args.profiles, args.format) {
        (true, _) => terminal::json(&rounded(&Profiles::of(design))),
        (false, Format::Text) => terminal::out(&measures().text(args.full, args.units.of(design))),
        (false, Format::Json) => terminal::json(&rounded(&measures())),
    };
    match reported {
        Ok(()) => sound,
        Err(reason) => terminal::ended(Err(reason)),
    }
}
