//! How a list is given out: text or JSON, to the terminal or into a file.

use crate::output::{Output, ending};
use crate::terminal;
use quillet_export::mark::MARK;
use quillet_export::report::Lists;
use serde::Serialize;
use std::path::Path;

/// How a list is wanted.
#[derive(clap::Args)]
pub(crate) struct Listing {
    /// How to print it [default: text, or as the ending of OUT says]
    #[arg(long, value_enum)]
    format: Option<Format>,
    #[command(flatten)]
    output: Output,
}

/// Text for people or JSON for programs.
#[derive(Clone, Copy, PartialEq, clap::ValueEnum)]
enum Format {
    /// A table for people.
    Text,
    /// One JSON object.
    Json,
}

impl Listing {
    /// Gives a list out: printed, or written where `-o` says.
    ///
    /// # Errors
    ///
    /// A sentence that names the file and why it is not written.
    pub(crate) fn give<L: Serialize>(
        &self,
        from: &Path,
        lists: &Lists<L>,
        text: impl Fn(&L) -> String,
    ) -> Result<(), String> {
        let path = self.output.path(from, "");
        let named = self.output.is_named();
        let by_ending = named && ending(&path) == "json";
        let as_json = self
            .format
            .map_or(by_ending, |format| format == Format::Json);
        let text = match as_json {
            true => lists.json(),
            false if named => format!("{}\n({MARK})\n", lists.text(text)),
            false => lists.text(text),
        };
        if named {
            return self.output.write(&path, text.as_bytes());
        }
        match as_json {
            true => terminal::json(&text),
            false => terminal::out(&text),
        }
    }
}
