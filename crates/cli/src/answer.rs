//! How a question about a standard is answered on the terminal.

use crate::terminal;
use quillet_export::report::{Answer, rounded};
use std::process::ExitCode;

/// How an answer is printed.
#[derive(clap::Args)]
pub(crate) struct Show {
    /// Say where each figure comes from
    #[arg(long)]
    sources: bool,
    /// How to print the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// Text for people or JSON for programs.
#[derive(Clone, Copy, Default, clap::ValueEnum)]
pub(crate) enum Format {
    /// For people.
    #[default]
    Text,
    /// One JSON object.
    Json,
}

/// Prints an answer; 0, or 2 with the reason where there is none.
pub(crate) fn print(answer: Result<Answer, String>, show: &Show) -> ExitCode {
    match answer {
        Ok(answer) => terminal::ended(match show.format {
            Format::Text => terminal::out(&answer.page.text(show.sources)),
            Format::Json => terminal::json(&rounded(&answer.json)),
        }),
        Err(reason) => terminal::ended(Err(reason)),
    }
}
