//! How a list is given out: text or JSON, to the terminal or into a file.

use crate::json;
use crate::output::{Output, ending};
use crate::say;
use quillet_export::mark::MARK;
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

/// What every file of ours bears, and the list.
#[derive(Serialize)]
struct Marked<'a, T> {
    generator: &'static str,
    #[serde(flatten)]
    list: &'a T,
}

impl Listing {
    /// Gives a list out: printed, or written where `-o` says.
    ///
    /// # Errors
    ///
    /// A sentence that names the file and why it is not written.
    pub(crate) fn give<T: Serialize>(
        &self,
        from: &Path,
        list: &T,
        text: impl FnOnce(&T) -> String,
    ) -> Result<(), String> {
        let path = self.output.path(from, "");
        let named = self.output.is_named();
        let by_ending = named && ending(&path) == "json";
        let as_json = self
            .format
            .map_or(by_ending, |format| format == Format::Json);
        let text = match as_json {
            true => {
                let marked = Marked {
                    generator: MARK,
                    list,
                };
                json::rounded(&marked)
            }
            false if named => format!("{}\n({MARK})\n", text(list)),
            false => text(list),
        };
        if named {
            return self.output.write(&path, text.as_bytes());
        }
        match as_json {
            true => say::json(&text),
            false => say::out(&text),
        }
    }
}

/// Columns under each other: text to the left, numbers to the right.
pub(crate) fn columns(head: &[&str], rows: &[Vec<String>]) -> String {
    let width = |at: usize| {
        let cells = rows
            .iter()
            .filter_map(|row| row.get(at))
            .map(|cell| cell.chars().count());
        cells.chain([head[at].chars().count()]).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..head.len()).map(width).collect();
    let number = |at: usize| {
        let mut cells = rows
            .iter()
            .filter_map(|row| row.get(at))
            .filter(|cell| !cell.is_empty());
        cells.all(|cell| cell.parse::<f64>().is_ok())
    };
    let numbers: Vec<bool> = (0..head.len()).map(number).collect();
    let line = |cells: &[String]| {
        let mut out = String::from(" ");
        for (at, cell) in cells.iter().enumerate() {
            let fill = " ".repeat(widths[at].saturating_sub(cell.chars().count()));
            match numbers.get(at).copied().unwrap_or(false) {
                true => out += &format!(" {fill}{cell} "),
                false => out += &format!(" {cell}{fill} "),
            }
        }
        out.trim_end().to_owned() + "\n"
    };
    let head: Vec<String> = head.iter().map(|cell| (*cell).to_owned()).collect();
    let rows = rows.iter().map(|row| line(row));
    line(&head) + &rows.collect::<String>()
}
