//! `quillet check`: points at what would go wrong before a blank is cut.

mod baseline;
mod drawn;
mod left;

use crate::at::At;
use crate::rooted::Rooted;
use crate::{disk, files, terminal};
use quillet_check::Accepted;
use quillet_export::report::{Checked, CheckedFile};
use quillet_model::{Source, SourceFile, tidy};
use quillet_pen::Analysis;
use quillet_syntax::Severity;
use rayon::prelude::*;
use std::cell::LazyCell;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet check` may be asked.
#[derive(clap::Args)]
pub(crate) struct CheckArgs {
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
    /// Count what was found before, in a revision of git or in a .sarif file that check wrote, and
    /// let only the rest end with 1
    #[arg(long, value_name = "REV|FILE")]
    baseline: Option<String>,
    #[command(flatten)]
    at: At,
}

/// How what is found is printed.
#[derive(Clone, Copy, Default, clap::ValueEnum)]
enum Format {
    /// For people.
    #[default]
    Text,
    /// One JSON object.
    Json,
    /// SARIF 2.1.0, which other programs show.
    Sarif,
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
pub(crate) fn run(args: &CheckArgs) -> ExitCode {
    // Git is asked only where a file has to be named.
    let rooted = LazyCell::new(|| Rooted::around(&args.paths));
    let name = |file: &SourceFile| rooted.name(file);
    let Findings {
        mut whole,
        none,
        problems,
    } = match look_at_all(args, &args.at) {
        Ok(found) => found,
        Err(reason) => return terminal::ended(Err(reason)),
    };
    problems.iter().for_each(terminal::aside);
    if none {
        return ExitCode::from(2);
    }
    whole.put_in_order();
    if let Some(wanted) = &args.baseline {
        match baseline::baseline(wanted, args, &rooted) {
            Ok(before) => whole.leave_out(&before, &name),
            Err(reason) => return terminal::ended(Err(reason)),
        }
    }
    let printed = match (args.format, terminal::has_colours()) {
        (Format::Json, _) => terminal::json(&whole.json()),
        (Format::Sarif, _) => terminal::json(&whole.sarif(&name)),
        (Format::Text, _) if args.brief => terminal::out(&whole.brief()),
        (Format::Text, true) => terminal::coloured(&drawn::text(&whole, true)),
        (Format::Text, false) => terminal::out(&drawn::text(&whole, false)),
    };
    if let Err(reason) = printed {
        return terminal::ended(Err(reason));
    }
    let denied = match args.deny {
        Some(Deny::Warning) => Severity::Warning,
        Some(Deny::Note) => Severity::Note,
        None => Severity::Error,
    };
    let worst = whole.findings().iter().map(|it| it.severity).max();
    match (problems.is_empty(), worst.is_some_and(|it| it >= denied)) {
        (false, _) => ExitCode::from(2),
        (true, true) => ExitCode::FAILURE,
        (true, false) => ExitCode::SUCCESS,
    }
}

/// What came of all that was asked for.
struct Findings {
    whole: Checked,
    /// Whether there was no file at all to look at.
    none: bool,
    /// What could not be looked at, a sentence each.
    problems: Vec<String>,
}

/// What is found in all that is asked for.
fn look_at_all(args: &CheckArgs, at: &At) -> Result<Findings, String> {
    let (
        files::FileList {
            files,
            mut problems,
        },
        source,
    ) = sources(args, at)?;
    let looked_at: Vec<_> = files
        .par_iter()
        .map(|path| (path, look_at(path, &*source, args.full)))
        .collect();
    let mut whole = Checked::default();
    for (path, outcome) in looked_at {
        match outcome {
            Ok(one) => whole.add(one),
            Err(reason) => problems.push(format!("{}: {reason}", path.display())),
        }
    }
    Ok(Findings {
        whole,
        none: files.is_empty(),
        problems,
    })
}

/// The files asked for, and where they are read.
fn sources(args: &CheckArgs, at: &At) -> Result<(files::FileList, Box<dyn Source + Sync>), String> {
    let first = args.paths.first().map_or(Path::new(""), |it| it);
    if let Some(revision) = at.revision(first)? {
        return Ok((crate::at::find(&revision, &args.paths), Box::new(revision)));
    }
    let mut found = files::find(&args.paths);
    let source = disk::source_of(&mut found.files, &mut found.problems);
    Ok((found, Box::new(source)))
}

fn look_at(path: &Path, source: &dyn Source, full: bool) -> Result<CheckedFile, String> {
    let analysis = Analysis::of(&tidy(path), source, None).map_err(|error| error.to_string())?;
    let findings = analysis.findings_with_cures(source, &|| false);
    let findings = left::with_rooms(&analysis, findings.unwrap_or_default());
    let accepted = analysis.examined().accepted.clone();
    let design = analysis.design;
    let accepted = accepted.into_iter().map(|it| Accepted {
        finding: it.finding.in_units(&|file| design.units_of(file)),
        ..it
    });
    let accepted = accepted.collect();
    Ok(CheckedFile {
        accepted,
        findings,
        assumed: full.then(|| quillet_check::assumed::of(&design)),
        uses: design.uses.iter().map(|(_, file)| *file).collect(),
        files: design.files,
    })
}
