//! `quillet check`: points at what would go wrong before a blank is cut.

mod brief;
mod json;
mod report;

use crate::answer::Format;
use crate::{disk, files, say};
use quillet_check::assumed::Assumed;
use quillet_model::{Source, SourceFile, load, resolve, tidy};
use quillet_syntax::{FileId, Finding, RuleId, Severity};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

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
    let files::Found {
        files: mut paths,
        mut troubles,
    } = files::find(&args.paths);
    let source = disk::source_of(&mut paths, &mut troubles);
    troubles.iter().for_each(say::aside);
    if paths.is_empty() {
        return ExitCode::from(2);
    }
    let looked_at: Vec<_> = paths
        .par_iter()
        .map(|path| (path, look_at(path, &source, args.full)))
        .collect();
    let mut whole = Whole {
        failed: !troubles.is_empty(),
        ..Whole::default()
    };
    for (path, outcome) in looked_at {
        match outcome {
            Ok(one) => whole.add(one),
            Err(reason) => {
                whole.failed = true;
                say::aside(format!("{}: {reason}", path.display()));
            }
        }
    }
    whole.put_in_order();
    let said = match (args.format, say::has_colours()) {
        (Format::Json, _) => say::json(&json::text(&whole)),
        (Format::Text, _) if args.brief => say::out(&brief::text(&whole)),
        (Format::Text, true) => say::coloured(&report::text(&whole, true)),
        (Format::Text, false) => say::out(&report::text(&whole, false)),
    };
    if let Err(reason) = said {
        whole.failed = true;
        say::aside(reason);
    }
    let denied = match args.deny {
        Some(Deny::Warning) => Severity::Warning,
        Some(Deny::Note) => Severity::Note,
        None => Severity::Error,
    };
    let worst = whole.findings.iter().map(|it| it.severity).max();
    match (whole.failed, worst.is_some_and(|it| it >= denied)) {
        (true, _) => ExitCode::from(2),
        (false, true) => ExitCode::FAILURE,
        (false, false) => ExitCode::SUCCESS,
    }
}

/// One file asked for, with all it uses.
struct One {
    files: Vec<Arc<SourceFile>>,
    uses: Vec<FileId>,
    findings: Vec<Finding>,
    /// Asked for only with `--full`.
    assumed: Option<Vec<Assumed>>,
}

fn look_at(path: &Path, source: &dyn Source, full: bool) -> Result<One, String> {
    let loaded = load(&tidy(path), source).map_err(|error| error.to_string())?;
    let design = resolve(&loaded);
    let findings = quillet_check::check(&design);
    let trial = quillet_check::Trial {
        root: &tidy(path),
        source,
        prepare: &|_| {},
        design: &design,
        findings: &findings,
        called_off: &|| false,
    };
    Ok(One {
        findings: trial.all(),
        assumed: full.then(|| quillet_check::assumed::of(&design)),
        uses: design.uses.iter().map(|(_, file)| *file).collect(),
        files: design.files,
    })
}

/// All files asked for together.
#[derive(Default)]
pub(crate) struct Whole {
    /// How many files were asked for and checked.
    count: usize,
    /// Whether one could not be.
    failed: bool,
    files: BTreeMap<FileId, Arc<SourceFile>>,
    used: BTreeSet<FileId>,
    findings: Vec<Finding>,
    /// What is assumed, where that was asked for.
    assumed: Option<Vec<Assumed>>,
}

impl Whole {
    fn add(&mut self, one: One) {
        self.count += 1;
        for file in one.files {
            // A file reached by several paths is called by the first of them in order.
            let known = self.files.entry(file.id).or_insert_with(|| file.clone());
            if file.path < known.path {
                *known = file;
            }
        }
        self.used.extend(one.uses);
        self.findings.extend(one.findings);
        if let Some(assumed) = one.assumed {
            self.assumed.get_or_insert_default().extend(assumed);
        }
    }

    /// Sorts by file name and place, and drops what several files tell of one they share.
    fn put_in_order(&mut self) {
        let Whole {
            files,
            used,
            findings,
            assumed,
            ..
        } = self;
        findings.retain(|it| it.rule != RuleId::UNUSED_ITEM || !used.contains(&it.span.file));
        findings.sort_by_cached_key(|it| {
            let path = files.get(&it.span.file).map(|file| file.path.clone());
            let place = (path, it.span.start, it.span.end);
            (
                place,
                std::cmp::Reverse(it.severity),
                it.rule,
                it.message.clone(),
            )
        });
        findings.dedup();
        if let Some(assumed) = assumed {
            assumed.sort_by_cached_key(|it| {
                let path = files.get(&it.span.file).map(|file| file.path.clone());
                (path, it.span.start, it.says.clone())
            });
            assumed.dedup();
        }
    }

    fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(&id).map(Arc::as_ref)
    }

    /// How many findings there are of a severity.
    fn count_of(&self, severity: Severity) -> usize {
        self.findings
            .iter()
            .filter(|it| it.severity == severity)
            .count()
    }
}
