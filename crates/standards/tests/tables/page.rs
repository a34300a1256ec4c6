//! A page of tables as it is written.

use quillet_geometry::{Length, Limits};
use std::fmt::Write;

pub(super) fn span(limits: Limits) -> String {
    let text = |length: Length| length.mm_text(3);
    format!("{} to {}", text(limits.min()), text(limits.max()))
}

pub(super) fn optional(cell: Option<String>) -> String {
    cell.unwrap_or_default()
}

/// A page of Markdown tables.
pub(super) struct Page(pub(super) String);

impl Page {
    pub(super) fn section(&mut self, title: &str) {
        write!(self.0, "\n## {title}\n").expect("a String takes any text");
    }

    pub(super) fn render(&mut self, text: &str) {
        write!(self.0, "\n{text}\n").expect("a String takes any text");
    }

    pub(super) fn head(&mut self, columns: &[&str]) {
        self.0.push('\n');
        self.row(columns);
        self.row(&vec!["---"; columns.len()]);
    }

    pub(super) fn row(&mut self, cells: &[&str]) {
        writeln!(self.0, "| {} |", cells.join(" | ")).expect("a String takes any text");
    }

    /// The sources of a table, each once.
    pub(super) fn sources<'s>(&mut self, all: impl IntoIterator<Item = &'s str>) {
        let mut each: Vec<&str> = Vec::new();
        for source in all {
            if !each.contains(&source) {
                each.push(source);
            }
        }
        self.render(&format!("Sources: {}.", each.join("; ")));
    }
}
