//! `quillet git`: tells git, in this clone, how designs are compared and merged.

mod attributes;
mod hooks;
mod settings;

use crate::terminal;
use quillet_history::Repository;
use std::path::Path;
use std::process::ExitCode;

/// What bears this is ours to take out again.
const MARK: &str = "# quillet git install";

/// The attributes that git is to go by.
const ATTRIBUTES: &str = "*.quillet diff=quillet merge=quillet";

/// What `quillet git` may be asked.
#[derive(clap::Args)]
pub(crate) struct GitArgs {
    #[command(subcommand)]
    action: Action,
}

#[derive(Clone, Copy, clap::Subcommand)]
enum Action {
    /// Tell git how to compare and merge designs, in this clone alone
    Install {
        /// Stop commits and merges that bring something new: an error, a warning, another layout
        #[arg(long)]
        hooks: bool,
    },
    /// Take out again what install has put in, and nothing else
    Remove,
    /// Say what is in
    Status,
}

/// What is to be done with each thing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Task {
    Install,
    Remove,
    Status,
}

/// What was done, a line each, and whether all of it could be.
#[derive(Default)]
struct Report {
    lines: String,
    lacking: bool,
}

impl Report {
    fn add(&mut self, what: &str, says: &str) {
        self.lines += &format!("{what:<28}{says}\n");
    }
}

/// Does it and says each thing; 0, 1 where something was not touched and is left to the maker, 2 with
/// the reason where it fails.
pub(crate) fn run(args: &GitArgs) -> ExitCode {
    match work(args.action) {
        Ok(report) => match terminal::out(&report.lines) {
            Ok(()) if report.lacking => ExitCode::FAILURE,
            printed => terminal::ended(printed),
        },
        Err(reason) => terminal::ended(Err(reason)),
    }
}

fn work(action: Action) -> Result<Report, String> {
    let repository = Repository::around(Path::new("")).map_err(|error| error.to_string())?;
    let (task, with_hooks) = match action {
        Action::Install { hooks } => (Task::Install, hooks),
        Action::Remove => (Task::Remove, true),
        Action::Status => (Task::Status, true),
    };
    let mut report = Report::default();
    settings::work(&repository, task, &mut report)?;
    attributes::work(&repository, task, &mut report)?;
    if with_hooks {
        hooks::work(&repository, task, &mut report)?;
    }
    if task == Task::Install {
        report.lines += &format!(
            "\nto share it with others, commit this line in .gitattributes; each runs quillet git install:\n{ATTRIBUTES}\n"
        );
    }
    Ok(report)
}
