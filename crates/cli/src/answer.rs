//! What a question about a standard is answered with: a page for people, JSON for programs.

use crate::{json, say};
use std::fmt::Write;
use std::process::ExitCode;

use quillet_standards::Source;

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

/// An answer in both forms.
pub(crate) struct Answer {
    /// The table for people.
    pub(crate) page: Page,
    /// The object for programs.
    pub(crate) json: serde_json::Value,
}

/// Prints an answer; 0, or 2 with the reason where there is none.
pub(crate) fn print(answer: Result<Answer, String>, show: &Show) -> ExitCode {
    match answer {
        Ok(answer) => say::ended(match show.format {
            Format::Text => say::out(&answer.page.text(show.sources)),
            Format::Json => say::json(&json::rounded(&answer.json)),
        }),
        Err(reason) => say::ended(Err(reason)),
    }
}

/// A page of rows under headings, their values aligned.
pub(crate) struct Page {
    title: String,
    lines: Vec<Line>,
}

enum Line {
    Heading(String),
    Row {
        what: String,
        value: String,
        source: Option<Source>,
    },
}

impl Page {
    /// An empty page.
    pub(crate) fn new(title: impl Into<String>) -> Page {
        Page {
            title: title.into(),
            lines: Vec::new(),
        }
    }

    /// A heading over the rows that follow.
    pub(crate) fn heading(&mut self, heading: impl Into<String>) {
        self.lines.push(Line::Heading(heading.into()));
    }

    /// A row that follows from what stands above it.
    pub(crate) fn row(&mut self, what: impl Into<String>, value: impl Into<String>) {
        self.add(what, value, None);
    }

    /// A row with its source.
    pub(crate) fn sourced(
        &mut self,
        what: impl Into<String>,
        value: impl Into<String>,
        source: Source,
    ) {
        self.add(what, value, Some(source));
    }

    /// A row, with its source where it has one.
    pub(crate) fn add(
        &mut self,
        what: impl Into<String>,
        value: impl Into<String>,
        source: Option<Source>,
    ) {
        self.lines.push(Line::Row {
            what: what.into(),
            value: value.into(),
            source,
        });
    }

    /// The page; with `sources`, numbered notes below say where the figures come from.
    pub(crate) fn text(&self, sources: bool) -> String {
        let width = self
            .lines
            .iter()
            .map(|line| match line {
                Line::Heading(_) => 0,
                Line::Row { what, .. } => what.chars().count(),
            })
            .max()
            .unwrap_or(0);
        let mut notes: Vec<Source> = Vec::new();
        let mut text = format!("{}\n", self.title);
        // Writing to a string cannot fail.
        for line in &self.lines {
            match line {
                Line::Heading(heading) => {
                    let _ = writeln!(text, "\n{heading}");
                }
                Line::Row {
                    what,
                    value,
                    source,
                } => {
                    let pad = " ".repeat(width - what.chars().count());
                    let _ = write!(text, "  {what}{pad}  {value}");
                    if let Some(source) = source.filter(|_| sources) {
                        let at = notes.iter().position(|note| *note == source);
                        let at = at.unwrap_or_else(|| {
                            notes.push(source);
                            notes.len() - 1
                        });
                        let _ = write!(text, " [{}]", at + 1);
                    }
                    text.push('\n');
                }
            }
        }
        if !notes.is_empty() {
            text.push_str("\nsources\n");
        }
        for (at, note) in notes.iter().enumerate() {
            let _ = writeln!(text, "  [{}] {note}", at + 1);
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_align_and_sources_are_notes() {
        let mut page = Page::new("M10");
        page.heading("size");
        page.sourced("major ⌀", "10 mm", Source::new("ISO 724"));
        page.row("pitch", "1.5 mm");
        page.sourced("minor ⌀ D1", "8.376 mm", Source::new("ISO 724"));
        assert_eq!(
            page.text(false),
            "M10\n\nsize\n  major ⌀     10 mm\n  pitch       1.5 mm\n  minor ⌀ D1  8.376 mm\n"
        );
        assert_eq!(
            page.text(true),
            "M10\n\nsize\n  major ⌀     10 mm [1]\n  pitch       1.5 mm\n  minor ⌀ D1  8.376 mm [1]\n\nsources\n  [1] ISO 724\n"
        );
    }
}
