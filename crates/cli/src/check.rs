//! `quillet check`: points at what would go wrong before a blank is cut.

mod drawn;

use crate::answer::Format;
use crate::at::{self, At};
use crate::{disk, files, terminal};
use quillet_export::report::{Checked, CheckedFile};
use quillet_model::{Source, tidy};
use quillet_pen::Analysis;
use quillet_syntax::Severity;
use rayon::prelude::*;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet check` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// Files, folders to look through for *.quillet, or - for standard input
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    /// How to print what is found
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// End with 1 for these too
    #[arg(long, value_enum)]
    deny: Option<Deny>,
    /// Say also what is assumed: tap drills and tenons that nobody wrote
    #[arg(long)]
    full: bool,
    /// One line a finding, the errors of a file first
    #[arg(long)]
    brief: bool,
    #[command(flatten)]
    at: At,
}

/// What ends the process with 1 besides errors.
#[derive(Clone, Copy, clap::ValueEnum)]
enum Deny {
    /// Warnings.
    Warning,
    /// Warnings and notes.
    Note,
}

/// Checks; 0 where nothing worse than a warning was found, 1 for errors (and what `--deny`
/// says), 2 where a file could not be checked.
pub(crate) fn run(args: &Args) -> ExitCode {
    let (files::FileList { files, problems }, source) = match sources(args) {
        Ok(found) => found,
        Err(reason) => return terminal::ended(Err(reason)),
    };
    problems.iter().for_each(terminal::aside);
    if files.is_empty() {
        return ExitCode::from(2);
    }
    let looked_at: Vec<_> = files
        .par_iter()
        .map(|path| (path, look_at(path, &*source, args.full)))
        .collect();
    let (mut whole, mut failed) = (Checked::default(), !problems.is_empty());
    for (path, outcome) in looked_at {
        match outcome {
            Ok(one) => whole.add(one),
            Err(reason) => {
                failed = true;
                terminal::aside(format!("{}: {reason}", path.display()));
            }
        }
    }
    whole.put_in_order();
    let report = match (args.format, terminal::has_colours()) {
        (Format::Json, _) => terminal::json(&whole.json()),
        (Format::Text, _) if args.brief => terminal::out(&whole.brief()),
        (Format::Text, true) => terminal::coloured(&drawn::text(&whole, true)),
        (Format::Text, false) => terminal::out(&drawn::text(&whole, false)),
    };
    if let Err(reason) = report {
        failed = true;
        terminal::aside(reason);
    }
    let denied = match args.deny {
        Some(Deny::Warning) => Severity::Warning,
        Some(Deny::Note) => Severity::Note,
        None => Severity::Error,
    };
    let worst = whole.findings().iter().map(|it| it.severity).max();
    match (failed, worst.is_some_and(|it| it >= denied)) {
        (true, _) => ExitCode::from(2),
        (false, true) => ExitCode::FAILURE,
        (false, false) => ExitCode::SUCCESS,
    }
}

/// The files asked for, and where they are read.
fn sources(args: &Args) -> Result<(files::FileList, Box<dyn Source + Sync>), String> {
    let first = args.paths.first().map_or(Path::new(""), |it| it);
    if let Some(revision) = args.at.revision(first)? {
        return Ok((at::find(&revision, &args.paths), Box::new(revision)));
    }
    let mut found = files::find(&args.paths);
    let source = disk::source_of(&mut found.files, &mut found.problems);
    Ok((found, Box::new(source)))
}

fn look_at(path: &Path, source: &dyn Source, full: bool) -> Result<CheckedFile, String> {
    let analysis = Analysis::of(&tidy(path), source, None).map_err(|error| error.to_string())?;
    let findings = analysis.findings_with_cures(source, &|| false);
    let design = analysis.design;
    Ok(CheckedFile {
        findings: findings.unwrap_or_default(),
        assumed: full.then(|| quillet_check::assumed::of(&design)),
        uses: design.uses.iter().map(|(_, file)| *file).collect(),
        files: design.files,
    })
}
