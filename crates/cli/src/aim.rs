//! `quillet aim`: the value of a number at which a measure comes to what is wanted.

use crate::answer::Format;
use crate::at::At;
use crate::choice::PenChoice;
use crate::terminal;
use crate::vary::bounds;
use quillet_export::report::{Aims, rounded};
use quillet_room::aim::{aim, asked};
use quillet_room::{Numbers, Probe};
use quillet_syntax::Severity;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet aim` may be asked.
#[derive(clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct AimArgs {
    /// The file
    file: PathBuf,
    /// What a measure is to come to: "mass(uncapped) = 15.5"
    wanted: String,
    /// The number to move, and from where to where: barrel.mouth.drill2.to=60..75
    #[arg(long, value_name = "NUMBER=FROM..TO")]
    by: String,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// How to print it
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

const EXAMPLES: &str = "\
quillet aim heron.quillet 'mass(uncapped) = 15.5' --by barrel.mouth.drill2.to=60..75 --pen heron";

/// Prints every such value; 0, 1 where there is none, 2 with the reason where it could not be looked for.
pub(crate) fn run(args: &AimArgs) -> ExitCode {
    terminal::ended_with(work(args))
}

fn work(args: &AimArgs) -> Result<ExitCode, String> {
    let analysis = args.at.analysis(&args.file)?;
    let (design, examined) = (&analysis.design, analysis.examined());
    let pen = args.pen.one(design)?;
    if examined.errors() > 0 {
        let errors = quillet_model::words::errors(examined.errors());
        return Err(format!(
            "this design has {errors}; quillet check says what is wrong"
        ));
    }
    let wanted = args
        .wanted
        .rsplit_once('=')
        .map(|(measure, to)| (measure.trim(), to.trim()));
    let (measure, to) = wanted.ok_or_else(|| {
        format!(
            "{}: a measure and what it is to come to are wanted, as mass(uncapped) = 15.5",
            args.wanted
        )
    })?;
    let by = args
        .by
        .split_once('=')
        .and_then(|(name, range)| Some((name.trim(), bounds(range)?)));
    let (name, (from, until)) = by.ok_or_else(|| {
        format!(
            "{}: a number with its range is wanted, as grip=10..12",
            args.by
        )
    })?;
    if from > until {
        return Err(format!(
            "{name}: {from}..{until} runs backward; write {until}..{from}"
        ));
    }
    let numbers = Numbers::of(design);
    let number = numbers.find(design, name).map_err(|it| it.to_string())?;
    let probe = Probe::of(analysis.loaded(), (design, examined), None, Severity::Note);
    let asked = asked(&probe, &pen.name.text, measure, to)?;
    let found = aim(&probe, &asked, (number, (from, until)));
    let aims = Aims::of(design, (measure, to), (number, (from, until)), &found);
    match args.format {
        Format::Text => terminal::out(&aims.text())?,
        Format::Json => terminal::json(&rounded(&aims))?,
    }
    Ok(match aims.is_met() {
        true => ExitCode::SUCCESS,
        false => ExitCode::FAILURE,
    })
}
