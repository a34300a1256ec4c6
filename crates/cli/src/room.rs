//! `quillet room`: how far each number can move, and what stops it.

use crate::at::At;
use crate::choice::PenChoice;
use crate::progress::Progress;
use crate::{terminal, warn};
use quillet_export::report::{Rooms, rounded};
use quillet_room::{Number, Numbers, Probe, Room};
use quillet_syntax::Severity;
use rayon::prelude::*;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet room` may be asked.
#[derive(clap::Args)]
pub(crate) struct RoomArgs {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// A number by its name (cap.mouth.drill.to) or its place (12:20); may be given several times
    /// [default: all]
    #[arg(long, value_name = "NUMBER")]
    of: Vec<String>,
    /// What stops a number: findings as grave as this
    #[arg(long, value_enum, default_value_t)]
    until: Until,
    /// How to print it
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

#[derive(Clone, Copy, Default, clap::ValueEnum)]
pub(crate) enum Until {
    /// Errors alone
    Error,
    /// Warnings too
    #[default]
    Warning,
    /// Everything that is found
    Note,
}

/// How what was found is printed.
#[derive(Clone, Copy, Default, clap::ValueEnum)]
pub(crate) enum Format {
    /// For people
    #[default]
    Text,
    /// One JSON object
    Json,
    /// A row each, for a spreadsheet
    Csv,
}

impl From<Until> for Severity {
    fn from(until: Until) -> Severity {
        match until {
            Until::Error => Severity::Error,
            Until::Warning => Severity::Warning,
            Until::Note => Severity::Note,
        }
    }
}

/// Prints how far numbers can move; 0, 1 where the design has errors, 2 where there is no such number.
pub(crate) fn run(args: &RoomArgs) -> ExitCode {
    terminal::ended_with(work(args))
}

fn work(args: &RoomArgs) -> Result<ExitCode, String> {
    let analysis = args.at.analysis(&args.file)?;
    let (design, examined) = (&analysis.design, analysis.examined());
    let pens = args.pen.pens(design)?;
    let pen = match pens[..] {
        // What is left to be cut is looked at in the one that is made.
        [pen] if pen.made.is_some() => Some(&*pen.name.text),
        _ => args.pen.pen.as_deref(),
    };
    let numbers = Numbers::of(design);
    let asked = named(&numbers, design, &args.of)?;
    let until = args.until.into();
    let probe = Probe::of(analysis.loaded(), (design, examined), pen, until);
    let progress = Progress::of(asked.len(), "numbers");
    let rooms = asked.par_iter().map(|it| {
        let room = Room::of(&probe, &numbers, it);
        progress.step();
        room
    });
    let rooms = rooms.collect::<Vec<_>>();
    drop(progress);
    let rooms = Rooms::of(design, pen, until, &rooms);
    let sound = warn::unsound(examined);
    match args.format {
        Format::Text => terminal::out(&rooms.text(terminal::is_terminal(), terminal::width()))?,
        Format::Json => terminal::json(&rounded(&rooms))?,
        Format::Csv => terminal::out(&rooms.csv())?,
    }
    Ok(sound)
}

/// The numbers of these names; all, where none is given.
fn named<'n>(
    numbers: &'n Numbers,
    design: &quillet_model::Design,
    names: &[String],
) -> Result<Vec<&'n Number>, String> {
    if numbers.all().is_empty() && names.is_empty() {
        return Err("there is no number in this file that can be moved".into());
    }
    numbers.named(design, names).map_err(|it| it.to_string())
}
