//! Small tables of sizes, in Markdown.

use crate::sizes::Sizes;
use quillet_geometry::{Length, Limits};
use std::fmt::Write;

/// A page of Markdown put together from the top.
#[derive(Debug)]
pub(crate) struct Sheet {
    sizes: Sizes,
    text: String,
    in_table: bool,
}

impl Sheet {
    /// An empty page.
    pub(crate) fn new(sizes: Sizes) -> Self {
        Self {
            sizes,
            text: String::new(),
            in_table: false,
        }
    }

    /// How sizes are told.
    pub(crate) fn sizes(&self) -> Sizes {
        self.sizes
    }

    /// A paragraph.
    pub(crate) fn paragraph(&mut self, paragraph: impl AsRef<str>) -> &mut Self {
        if !self.text.is_empty() {
            self.text
                .push_str(if self.in_table { "\n" } else { "\n\n" });
        }
        self.in_table = false;
        self.text.push_str(paragraph.as_ref());
        self
    }

    /// A line of the language, in a block of its own.
    pub(crate) fn code(&mut self, line: &str) -> &mut Self {
        self.paragraph(format!("```quillet\n{line}\n```"))
    }

    /// A row: what it is, and its size.
    pub(crate) fn size(&mut self, what: &str, size: Length) -> &mut Self {
        let value = self.sizes.long(size);
        self.row(what, &value)
    }

    /// A row: what it is, and the sizes it lies between.
    pub(crate) fn limits(&mut self, what: &str, limits: Limits) -> &mut Self {
        let value = self.sizes.limits(limits);
        self.row(what, &value)
    }

    /// A row that tells the nearest 64th, where inches are told.
    pub(crate) fn fraction(&mut self, size: Length) -> &mut Self {
        match self.sizes.fraction(size) {
            Some(fraction) => self.row("nearest fraction", &fraction),
            None => self,
        }
    }

    /// A row: what it is, and its value.
    pub(crate) fn row(&mut self, what: &str, value: &str) -> &mut Self {
        if !self.in_table {
            self.paragraph("| | |\n|:--|:--|\n");
            self.in_table = true;
        }
        // Writing to a string cannot fail.
        let _ = writeln!(self.text, "| {} | {} |", cell(what), cell(value));
        self
    }

    /// Whether nothing was written.
    pub(crate) fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// The Markdown.
    pub(crate) fn finish(self) -> String {
        self.text.trim_end().to_owned()
    }
}

fn cell(text: &str) -> String {
    as_written(&text.replace('\n', " "))
}

/// A maker's text as Markdown that shows just that text: nothing in it is read as markup, and
/// what steers a terminal is shown as `�`.
pub(crate) fn as_written(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    // Blanks at the start of a line would make code of it.
    let lines = text.split('\n').map(str::trim_start);
    for (index, line) in lines.enumerate() {
        if index > 0 {
            out.push('\n');
        }
        // `1. ` begins a list as `- ` does.
        let after = line.trim_start_matches(|it: char| it.is_ascii_digit());
        let is_list = [".", ")"].iter().any(|it| {
            let rest = after.strip_prefix(it);
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
        });
        for (at, letter) in line.char_indices() {
            let first = at == 0 && matches!(letter, '#' | '-' | '+' | '=');
            let numbers = is_list && at > 0 && at == line.len() - after.len();
            let anywhere = "\\`*_[]<>&|~$".contains(letter);
            match letter {
                _ if first || numbers || anywhere => out.extend(['\\', letter]),
                control if control.is_control() && control != '\t' => out.push('\u{fffd}'),
                other => out.push(other),
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::Units;

    #[test]
    fn a_table_begins_with_its_first_row_and_ends_with_a_paragraph() {
        let mut sheet = Sheet::new(Sizes::chosen(
            Units::Both,
            quillet_model::Units::Millimetres,
        ));
        sheet
            .paragraph("**a bore**")
            .size("diameter", Length::mm(12.7))
            .row("a|b", "c")
            .paragraph("end");
        assert_eq!(
            sheet.finish(),
            "**a bore**\n\n| | |\n|:--|:--|\n| diameter | 12.7 mm · 0.5 in |\n| a\\|b | c |\n\nend"
        );
    }

    #[test]
    fn what_the_maker_wrote_is_no_markup() {
        for (written, shown) in [
            ("Grey heron, 2 of 3", "Grey heron, 2 of 3"),
            (
                "*bold* _b_ `c` [a](b)",
                "\\*bold\\* \\_b\\_ \\`c\\` \\[a\\](b)",
            ),
            ("<img src=x> &lt; a|b", "\\<img src=x\\> \\&lt; a\\|b"),
            (
                "# one\n    - two\n12. three\n===",
                "\\# one\n\\- two\n12\\. three\n\\===",
            ),
            ("5.5 g\u{1b}[2J", "5.5 g\u{fffd}\\[2J"),
        ] {
            assert_eq!(as_written(written), shown);
        }
    }
}
