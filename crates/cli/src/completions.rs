//! `quillet completions`: what a shell completes a command line by; `quillet manpages`: a page a command.

use crate::{files, terminal};
use clap::CommandFactory;
use clap_complete::Shell;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet completions` may be asked.
#[derive(clap::Args)]
pub(crate) struct CompletionsArgs {
    /// The shell; the script goes to standard output
    shell: Shell,
}

/// What `quillet manpages` may be asked.
#[derive(clap::Args)]
pub(crate) struct ManpagesArgs {
    /// The folder to write into; it is made where it is not there
    folder: PathBuf,
}

/// Prints the script of a shell.
pub(crate) fn run(args: &CompletionsArgs) -> ExitCode {
    let mut script = Vec::new();
    clap_complete::generate(
        args.shell,
        &mut crate::Cli::command(),
        "quillet",
        &mut script,
    );
    terminal::ended(terminal::bytes(&script))
}

/// Writes `quillet.1` and `quillet-COMMAND.1` for each command; 0, or 2 with the reason.
pub(crate) fn run_manpages(args: &ManpagesArgs) -> ExitCode {
    terminal::ended(write(args))
}

fn write(args: &ManpagesArgs) -> Result<(), String> {
    std::fs::create_dir_all(&args.folder).map_err(|error| files::cannot(&args.folder, &error))?;
    let mut all = crate::Cli::command();
    all.build();
    let of_command = |it: &clap::Command| !it.is_hide_set() && it.get_name() != "help";
    let commands = all.get_subcommands().filter(|it| of_command(it)).cloned();
    for command in commands.chain([all.clone()]) {
        let name = command
            .get_display_name()
            .unwrap_or(command.get_name())
            .to_owned();
        let mut page = Vec::new();
        let made = clap_mangen::Man::new(command).render(&mut page);
        let path = args.folder.join(format!("{name}.1"));
        made.map_err(|error| files::cannot(&path, &error))?;
        files::put(&path, &page)?;
    }
    Ok(())
}
