//! `quillet format`: brings files into their one canonical form.

use crate::at::{self, At};
use crate::{files, terminal};
use quillet_history::Revision;
use quillet_model::Source;
use quillet_syntax::{FileId, Finding, RuleId};
use rayon::prelude::*;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet format` may be asked.
#[derive(clap::Args)]
pub(crate) struct FormatArgs {
    /// Files, folders to look through for *.quillet, or - for standard input to standard output
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    /// Change nothing; say which files would change, and end with 1 if any would
    #[arg(long)]
    check: bool,
    #[command(flatten)]
    at: At,
}

impl FormatArgs {
    /// Of a revision nothing can be changed.
    fn is_possible(&self) -> Result<(), String> {
        match self.at.is_given() && !self.check {
            true => Err("a revision is not changed; --at goes with --check".to_owned()),
            false => Ok(()),
        }
    }
}

/// What formatting a file comes to.
enum Outcome {
    /// It is in its canonical form.
    Canonical,
    /// It was brought into it, or with `--check` would be.
    Changed,
    /// It holds both versions of a merge and stays as it is; what is said of that.
    Unfinished(Vec<String>),
}

/// Formats, and says how that ended: 0, 1 if `--check` found something to change or a file holds an
/// unfinished merge, 2 if a file could not be read or replaced.
pub(crate) fn run(args: &FormatArgs) -> ExitCode {
    let first = args.paths.first().map_or(Path::new(""), |it| it);
    let revision = match args.is_possible().and_then(|()| args.at.revision(first)) {
        Ok(revision) => revision,
        Err(reason) => return terminal::ended(Err(reason)),
    };
    let files::FileList { files, problems } = match &revision {
        Some(revision) => at::find(revision, &args.paths),
        None => files::find(&args.paths),
    };
    let outcomes: Vec<_> = files
        .par_iter()
        .map(|path| format_file(path, args.check, revision.as_ref()))
        .collect();
    let (mut changed, mut unfinished) = (0, 0);
    let mut failed = !problems.is_empty();
    problems.iter().for_each(terminal::aside);
    let mut report = String::new();
    for (path, outcome) in files.iter().zip(outcomes) {
        let (name, quiet) = (path.display(), is_standard_input(path));
        match outcome {
            Ok(Outcome::Canonical) => {}
            Ok(Outcome::Changed) => {
                changed += 1;
                match args.check {
                    true => report += &format!("{name} would change\n"),
                    false if quiet => {}
                    false => report += &format!("{name} formatted\n"),
                }
            }
            Ok(Outcome::Unfinished(merges)) => {
                unfinished += 1;
                merges.iter().for_each(terminal::aside);
            }
            Err(reason) => {
                failed = true;
                terminal::aside(reason);
            }
        }
    }
    if let Err(reason) = terminal::out(&report) {
        failed = true;
        terminal::aside(reason);
    }
    match (failed, unfinished > 0 || (args.check && changed > 0)) {
        (true, _) => ExitCode::from(2),
        (false, true) => ExitCode::FAILURE,
        (false, false) => ExitCode::SUCCESS,
    }
}

fn format_file(path: &Path, check: bool, at: Option<&Revision>) -> Result<Outcome, String> {
    // Whatever else a file holds, formatting would shift its lines about.
    if !is_standard_input(path) && !files::is_design(path) {
        return Err(format!("{}: not a *.quillet file", path.display()));
    }
    let text = match at {
        None => files::read(path)?,
        Some(revision) => {
            let file = revision.open(path);
            let file = file.map_err(|error| format!("{}: {error}", path.display()))?;
            file.text.to_string()
        }
    };
    let formatted = quillet_syntax::format(&text);
    let changed = formatted != text;
    match (check, is_standard_input(path)) {
        (true, _) => {}
        (false, true) if std::io::stdout().is_terminal() => terminal::out(&formatted)?,
        (false, true) => terminal::bytes(formatted.as_bytes())?,
        (false, false) if changed => files::replace(path, &formatted)?,
        (false, false) => {}
    }
    let merges = unfinished_merges(path, &text);
    Ok(match changed {
        _ if !merges.is_empty() => Outcome::Unfinished(merges),
        true => Outcome::Changed,
        false => Outcome::Canonical,
    })
}

/// What is said of each place at which a text holds both versions of a merge.
fn unfinished_merges(path: &Path, text: &str) -> Vec<String> {
    let parsed = quillet_syntax::parse(FileId::default(), text);
    let of_merge = |it: &&Finding| it.rule == RuleId::UNFINISHED_MERGE;
    let merges = parsed.findings.iter().filter(of_merge).map(|it| {
        let line = text[..it.span.range().start].matches('\n').count() + 1;
        format!(
            "{}:{line}: [{}] {}; left as it is",
            path.display(),
            it.rule,
            it.message
        )
    });
    merges.collect()
}

fn is_standard_input(path: &Path) -> bool {
    path.as_os_str() == files::STANDARD_INPUT
}
