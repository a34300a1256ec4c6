//! `quillet compare`: what a change does to a pen.

mod sides;

use crate::{files, terminal};
use quillet_compare::{Asked, Comparison, Deny, State, States, unknown};
use quillet_export::report::Compared;
use quillet_export::sheet;
use quillet_syntax::Severity;
use rayon::prelude::*;
use sides::{Side, Sides};
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet compare` may be asked.
#[derive(clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct CompareArgs {
    /// What was: a revision of git, REV:FILE, a file or a folder [default: HEAD]
    old: Option<String>,
    /// What is: the same [default: the working folder]
    new: Option<String>,
    /// Only files that are these or lie below these, and all that use them
    #[arg(last = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    /// One pen alone
    #[arg(long, value_name = "NAME")]
    pen: Option<String>,
    /// Against another pen, not the same pen's old self
    #[arg(long, value_name = "NAME", requires = "pen")]
    with: Option<String>,
    /// How to say what differs
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// Write into a file; it is written whole or not at all
    #[arg(short, long, value_name = "OUT")]
    output: Option<PathBuf>,
    /// Write the pictures, old over new, into this folder as .svg
    #[arg(long, value_name = "FOLDER")]
    pictures: Option<PathBuf>,
    /// Draw radii so many times as high in the pictures, 1 to 20: small differences are seen
    #[arg(long, value_name = "TIMES", default_value = "1", value_parser = times)]
    stretch: f64,
    /// End with 1 for these
    #[arg(long, value_enum, default_value_t)]
    deny: DenyName,
}

const EXAMPLES: &str = "\
quillet compare                        HEAD with the working folder
quillet compare main~2                 that revision with the working folder
quillet compare main~2 topic           two revisions
quillet compare main~2:heron.quillet heron.quillet   one file and what it uses
quillet compare old/ new/              two folders, without git
quillet compare heron.quillet --pen heron --with heron-ida   two pens of one file";

/// How what differs is said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
enum Format {
    /// For people
    #[default]
    Text,
    /// For a merge request
    Markdown,
    /// One JSON object
    Json,
    /// SARIF 2.1.0, each finding with what has become of it
    Sarif,
    /// One page with pictures
    Html,
}

/// What ends the process with 1.
#[derive(Clone, Copy, Debug, Default, clap::ValueEnum)]
enum DenyName {
    /// An error that was not there before
    #[default]
    NewError,
    /// The same of a warning
    NewWarning,
    /// The same of a note
    NewNote,
    /// Anything that can be measured, found or read off a sheet
    Effect,
    /// Anything at all
    Text,
}

impl From<DenyName> for Deny {
    fn from(name: DenyName) -> Deny {
        match name {
            DenyName::NewError => Deny::Finding(Severity::Error),
            DenyName::NewWarning => Deny::Finding(Severity::Warning),
            DenyName::NewNote => Deny::Finding(Severity::Note),
            DenyName::Effect => Deny::Effect,
            DenyName::Text => Deny::Text,
        }
    }
}

/// Compares; 0 where nothing is denied, 1 where something is, 2 where a side could not be read.
pub(crate) fn run(args: &CompareArgs) -> ExitCode {
    terminal::ended_with(work(args))
}

fn times(text: &str) -> Result<f64, String> {
    let times = text
        .parse::<f64>()
        .ok()
        .filter(|it| (1.0..=20.0).contains(it));
    times.ok_or_else(|| "it is a number from 1 to 20".to_owned())
}

fn work(args: &CompareArgs) -> Result<ExitCode, String> {
    if args.stretch > 1.0 && args.format != Format::Html && args.pictures.is_none() {
        return Err("--stretch is for pictures; add --format html or --pictures FOLDER".into());
    }
    let sides = Sides::of(args)?;
    let [old, new] = [&sides.old, &sides.new];
    let (was_called, is_called) = (old.namer(&sides), new.namer(&sides));
    let state = |side: &'_ Side| side.files(&sides);
    let (was, is) = (
        State {
            source: old.source(),
            files: state(old)?,
            name: &was_called,
            known: &unknown,
        },
        State {
            source: new.source(),
            files: state(new)?,
            name: &is_called,
            known: &unknown,
        },
    );
    let asked = Asked {
        pen: args.pen.clone(),
        with: args.with.clone(),
    };
    let (states, problems) = States::of(&was, &is, &asked);
    if let Some(problem) = problems.first() {
        return Err(problem.clone());
    }
    let mut named = args.pen.iter().chain(&args.with);
    if let Some(pen) = named.find(|it| !states.has_pen(it)) {
        let there: Vec<&str> = states.pens().into_iter().collect();
        return Err(format!(
            "there is no pen {pen} on either side; there is {}",
            there.join(", ")
        ));
    }
    if states.has_no_file() {
        let asked = args.paths.first().map(|it| it.display().to_string());
        let asked = asked.unwrap_or_else(|| "this folder".to_owned());
        return Err(format!("{asked}: no *.quillet file there, on either side"));
    }
    let jobs: Vec<usize> = (0..states.len()).collect();
    let done = jobs.par_iter().map(|job| states.work(*job, &sheet::lines));
    let done = done.collect::<Result<Vec<_>, String>>()?;
    let comparison = states.gather(done);
    let compared = Compared {
        comparison: &comparison,
        old: old.called.clone(),
        new: new.called.clone(),
        stretch: args.stretch,
    };
    write(args, &compared, &sides)?;
    pictures(args, &comparison)?;
    Ok(match comparison.is_denied(args.deny.into()) {
        true => ExitCode::FAILURE,
        false => ExitCode::SUCCESS,
    })
}

fn write(args: &CompareArgs, compared: &Compared, sides: &Sides) -> Result<(), String> {
    let text = match args.format {
        Format::Text => compared.text(),
        Format::Markdown => compared.markdown(),
        Format::Json => compared.json(),
        Format::Sarif => compared.sarif(&sides.new.namer(sides)),
        Format::Html => compared.html(),
    };
    match (&args.output, args.format) {
        (Some(path), _) => files::put(path, text.as_bytes()),
        (None, Format::Json | Format::Sarif) => terminal::json(&text),
        (None, _) => terminal::out(&text),
    }
}

/// Each picture in a file of its own, named after the pen and the part.
fn pictures(args: &CompareArgs, comparison: &Comparison) -> Result<(), String> {
    let Some(folder) = &args.pictures else {
        return Ok(());
    };
    std::fs::create_dir_all(folder).map_err(|error| files::cannot(folder, &error))?;
    for pen in &comparison.pens {
        for picture in quillet_export::picture::compared(pen, args.stretch) {
            let path = folder.join(format!("{}.svg", picture.name));
            files::put(&path, picture.svg.as_bytes())?;
        }
    }
    Ok(())
}
