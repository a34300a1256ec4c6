//! `quillet format`: brings files into their one canonical form.

use crate::{files, say};
use rayon::prelude::*;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet format` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// Files, folders to look through for *.quillet, or - for standard input to standard output
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    /// Change nothing; say which files would change, and end with 1 if any would
    #[arg(long)]
    check: bool,
}

/// What formatting a file comes to.
enum Outcome {
    /// It is in its canonical form.
    Kept,
    /// It was brought into it, or with `--check` would be.
    Changed,
}

/// Formats, and says how that ended: 0, 1 if `--check` found something to change, 2 if a file
/// could not be read or replaced.
pub(crate) fn run(args: &Args) -> ExitCode {
    let files::Found { files, troubles } = files::find(&args.paths);
    let outcomes: Vec<_> = files
        .par_iter()
        .map(|path| format_file(path, args.check))
        .collect();
    let mut changed = 0;
    let mut failed = !troubles.is_empty();
    troubles.iter().for_each(say::aside);
    let mut said = String::new();
    for (path, outcome) in files.iter().zip(outcomes) {
        let (name, quiet) = (path.display(), is_standard_input(path));
        match outcome {
            Ok(Outcome::Kept) => {}
            Ok(Outcome::Changed) => {
                changed += 1;
                match args.check {
                    true => said += &format!("{name} would change\n"),
                    false if quiet => {}
                    false => said += &format!("{name} formatted\n"),
                }
            }
            Err(reason) => {
                failed = true;
                say::aside(reason);
            }
        }
    }
    if let Err(reason) = say::out(&said) {
        failed = true;
        say::aside(reason);
    }
    match (failed, args.check && changed > 0) {
        (true, _) => ExitCode::from(2),
        (false, true) => ExitCode::FAILURE,
        (false, false) => ExitCode::SUCCESS,
    }
}

fn format_file(path: &Path, check: bool) -> Result<Outcome, String> {
    // Whatever else a file holds, formatting would shift its lines about.
    if !is_standard_input(path) && !files::is_design(path) {
        return Err(format!("{}: not a *.quillet file", path.display()));
    }
    let text = files::read(path)?;
    let formatted = quillet_syntax::format(&text);
    let changed = formatted != text;
    match (check, is_standard_input(path)) {
        (true, _) => {}
        (false, true) if std::io::stdout().is_terminal() => say::out(&formatted)?,
        (false, true) => say::bytes(formatted.as_bytes())?,
        (false, false) if changed => files::replace(path, &formatted)?,
        (false, false) => {}
    }
    Ok(match changed {
        true => Outcome::Changed,
        false => Outcome::Kept,
    })
}

fn is_standard_input(path: &Path) -> bool {
    path.as_os_str() == files::STANDARD_INPUT
}
