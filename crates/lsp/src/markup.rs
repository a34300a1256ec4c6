//! Markdown brought into the form that an editor can show.

use crate::client_support::ClientSupport;
use std::mem::take;
use tower_lsp::lsp_types::{MarkupContent, MarkupKind};

/// What is shown of a hover: as it is where tables and pictures are drawn; else a table's rows become
/// lines `name: value`, and where the editor would rather have no marks, there are none, and no pictures.
pub(crate) fn hover(editor: ClientSupport, markdown: &str) -> MarkupContent {
    shown(editor, editor.plain_hovers, markdown)
}

/// The same of what is told of a choice.
pub(crate) fn documentation(editor: ClientSupport, markdown: &str) -> MarkupContent {
    shown(editor, editor.plain_documentation, markdown)
}

fn shown(editor: ClientSupport, plain: bool, markdown: &str) -> MarkupContent {
    let (kind, value) = match (plain, editor.shows_pictures) {
        (true, _) => (
            MarkupKind::PlainText,
            without_marks(&without_tables(markdown)),
        ),
        (false, true) => (MarkupKind::Markdown, markdown.to_owned()),
        (false, false) => (MarkupKind::Markdown, without_tables(markdown)),
    };
    MarkupContent { kind, value }
}

/// Markdown in which each row of a table is an item of a list: what stands in its first column, and behind
/// a colon what stands in the others.
fn without_tables(markdown: &str) -> String {
    let (mut fenced, mut in_table) = (false, false);
    let mut lines = Vec::new();
    for line in markdown.lines() {
        fenced ^= line.trim_start().starts_with("```");
        let Some(cells) = cells(line).filter(|_| !fenced) else {
            in_table = false;
            lines.push(line.to_owned());
            continue;
        };
        let first = !in_table;
        in_table = true;
        let rule = |cell: &String| !cell.is_empty() && cell.chars().all(|it| "-: ".contains(it));
        let empty = cells.iter().all(String::is_empty);
        if empty || (!first && cells.iter().all(rule)) {
            continue;
        }
        let (name, values) = cells.split_first().map_or(("", vec![]), |(name, rest)| {
            (
                name.as_str(),
                rest.iter()
                    .filter(|it| !it.is_empty())
                    .map(String::as_str)
                    .collect(),
            )
        });
        let colon = if name.is_empty() || values.is_empty() {
            ""
        } else {
            ": "
        };
        lines.push(format!("- {name}{colon}{}", values.join(", ")));
    }
    lines.join("\n")
}

/// The cells of a table's row, a bar within one kept as it was written; none of what is no row.
fn cells(line: &str) -> Option<Vec<String>> {
    let inner = line.trim().strip_prefix('|')?;
    let (mut cells, mut cell, mut escaped) = (Vec::new(), String::new(), false);
    for letter in inner.chars() {
        if letter == '|' && !escaped {
            cells.push(take(&mut cell).trim().to_owned());
            continue;
        }
        escaped = letter == '\\' && !escaped;
        cell.push(letter);
    }
    if !cell.trim().is_empty() {
        cells.push(cell.trim().to_owned());
    }
    Some(cells)
}

/// The text of Markdown without its marks: what is emphasised as it is, of a link what it says, of a
/// picture nothing.
fn without_marks(markdown: &str) -> String {
    let mut fenced = false;
    let mut lines: Vec<String> = Vec::new();
    for line in markdown.lines() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
        } else if fenced {
            lines.push(line.to_owned());
        } else {
            let line = line.trim_start_matches('#').trim();
            let plain = spoken(line);
            // Where only a picture stood, nothing is left, nor the blank line above it.
            let blank = plain.is_empty() && lines.last().is_none_or(String::is_empty);
            if !blank {
                lines.push(plain);
            }
        }
    }
    lines.join("\n").trim().to_owned()
}

/// A line without its marks.
fn spoken(line: &str) -> String {
    let mut out = String::new();
    let mut rest = line;
    while let Some(letter) = rest.chars().next() {
        let picture = rest.strip_prefix("![").and_then(link);
        if let Some((_, after)) = picture {
            rest = after;
            continue;
        }
        if let Some((says, after)) = rest.strip_prefix('[').and_then(link) {
            out.push_str(&spoken(says));
            rest = after;
            continue;
        }
        rest = &rest[letter.len_utf8()..];
        match letter {
            '\\' => {
                let escaped = rest.chars().next().filter(char::is_ascii_punctuation);
                out.push(escaped.unwrap_or('\\'));
                rest = &rest[escaped.map_or(0, char::len_utf8)..];
            }
            '*' | '`' => {}
            other => out.push(other),
        }
    }
    out
}

/// What a link says, of the text behind its first bracket, and what comes after its address.
fn link(text: &str) -> Option<(&str, &str)> {
    let (says, after) = text.split_once("](")?;
    let (_, after) = after.split_once(')')?;
    (!says.contains('[')).then_some((says, after))
}

#[cfg(test)]
mod tests {
    use super::*;

    const MARKDOWN: &str = "\
**a bore** of `6 mm`, see [the rule](https://x.invalid/a)

| | |
|:--|:--|
| diameter | 12.7 mm |
| a\\|b | 1 \\* 2 |

```quillet
| kept | as it is |
drill 6 to *12*
```

![cap](data:image/svg+xml;base64,AA==)";

    fn editor(plain_hovers: bool, shows_pictures: bool) -> ClientSupport {
        ClientSupport {
            plain_hovers,
            shows_pictures,
            ..ClientSupport::default()
        }
    }

    #[test]
    fn tables_are_for_editors_that_draw_them() {
        let shown = hover(editor(false, true), MARKDOWN);
        assert_eq!(shown.kind, MarkupKind::Markdown);
        assert_eq!(shown.value, MARKDOWN);
    }

    #[test]
    fn a_row_is_a_line_where_tables_are_not_drawn() {
        let shown = hover(editor(false, false), MARKDOWN);
        assert_eq!(shown.kind, MarkupKind::Markdown);
        let rows = "\n\n- diameter: 12.7 mm\n- a\\|b: 1 \\* 2\n\n```quillet\n| kept | as it is |\n";
        assert!(shown.value.contains(rows), "{}", shown.value);
    }

    #[test]
    fn plain_text_has_no_marks_and_no_pictures() {
        let shown = hover(editor(true, false), MARKDOWN);
        assert_eq!(shown.kind, MarkupKind::PlainText);
        assert_eq!(
            shown.value,
            "a bore of 6 mm, see the rule\n\n- diameter: 12.7 mm\n- a|b: 1 * 2\n\n\
             | kept | as it is |\ndrill 6 to *12*"
        );
    }

    #[test]
    fn a_table_with_a_head_keeps_it_as_its_first_row() {
        let table = "| rule | says | since |\n|---|---|---|\n| thin-wall | too thin | |";
        let shown = hover(editor(false, false), table);
        assert_eq!(shown.value, "- rule: says, since\n- thin-wall: too thin");
    }
}
