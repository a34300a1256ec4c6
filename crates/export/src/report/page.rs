//! What a question about a standard is answered with: a page for people, JSON for programs.

use quillet_standards::Source;
use std::fmt::Write;

/// An answer in both forms.
pub struct Answer {
    /// The table for people.
    pub page: AnswerPage,
    /// The object for programs.
    pub json: serde_json::Value,
}

impl Answer {
    /// A page, and the figures on it.
    pub(super) fn new(page: AnswerPage, figures: &impl serde::Serialize) -> Self {
        // Plain structs with names for keys: they always come to a value.
        let json = serde_json::to_value(figures).unwrap_or_default();
        Self { page, json }
    }
}

/// A page of rows under headings, their values aligned.
pub struct AnswerPage {
    title: String,
    lines: Vec<PageLine>,
}

enum PageLine {
    Heading(String),
    Row {
        what: String,
        value: String,
        source: Option<Source>,
    },
}

impl AnswerPage {
    /// An empty page.
    pub(super) fn new(title: impl Into<String>) -> AnswerPage {
        AnswerPage {
            title: title.into(),
            lines: Vec::new(),
        }
    }

    /// A heading over the rows that follow.
    pub(super) fn heading(&mut self, heading: impl Into<String>) {
        self.lines.push(PageLine::Heading(heading.into()));
    }

    /// A row that follows from what stands above it.
    pub(super) fn row(&mut self, what: impl Into<String>, value: impl Into<String>) {
        self.add(what, value, None);
    }

    /// A row with its source.
    pub(super) fn sourced(
        &mut self,
        what: impl Into<String>,
        value: impl Into<String>,
        source: Source,
    ) {
        self.add(what, value, Some(source));
    }

    /// A row, with its source where it has one.
    pub(super) fn add(
        &mut self,
        what: impl Into<String>,
        value: impl Into<String>,
        source: Option<Source>,
    ) {
        self.lines.push(PageLine::Row {
            what: what.into(),
            value: value.into(),
            source,
        });
    }

    /// The page; with `sources`, numbered notes below say where the figures come from.
    pub fn text(&self, sources: bool) -> String {
        let width = self
            .lines
            .iter()
            .map(|line| match line {
                PageLine::Heading(_) => 0,
                PageLine::Row { what, .. } => what.chars().count(),
            })
            .max()
            .unwrap_or(0);
        let mut notes: Vec<Source> = Vec::new();
        let mut text = format!("{}\n", self.title);
        // Writing to a string cannot fail.
        for line in &self.lines {
            match line {
                PageLine::Heading(heading) => {
                    let _ = writeln!(text, "\n{heading}");
                }
                PageLine::Row {
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
        let mut page = AnswerPage::new("M10");
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
