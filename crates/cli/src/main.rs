//! The `quillet` command.
//!
//! One line a command here, one file a command beside it: `Args` says what may be
//! asked, `run` does it and says how the process ends.

#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "the one crate that speaks to the terminal"
)]

mod lsp;

use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// Designs pens made without a kit: written as parts, threads and fits, checked before cutting.
#[derive(Parser)]
#[command(name = "quillet", version, propagate_version = true)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Serve an editor over standard input and output (language server protocol).
    Lsp(lsp::Args),
}

fn main() -> ExitCode {
    match Cli::parse().command {
        Command::Lsp(args) => lsp::run(&args),
    }
}
