//! Edits that cures are made of.

use quillet_model::Design;
use quillet_syntax::{Edit, SizedText, Span, text};

/// Takes a statement out, with its whole line where it has the line alone.
pub(crate) fn take_out(design: &Design, statement: Span) -> Edit {
    Edit::new(line_of(design, statement), SizedText::default())
}

/// Puts a statement on a line of its own before another one, indented as it is.
pub(crate) fn before(design: &Design, statement: Span, text: impl Into<SizedText>) -> Edit {
    let indent = indent_of(design, statement);
    Edit::new(statement.before(), text!("{}\n{}", text.into(), indent))
}

/// The blanks that stand before a statement on its line.
fn indent_of(design: &Design, statement: Span) -> &str {
    let Some(file) = design.file(statement.file) else {
        return "";
    };
    let before = &file.text[..statement.start as usize];
    let line = &before[before.rfind('\n').map_or(0, |at| at + 1)..];
    &line[..line.len() - line.trim_start().len()]
}

/// The statement with the blanks before it and its line's end, where it has the line alone.
fn line_of(design: &Design, statement: Span) -> Span {
    let Some(file) = design.file(statement.file) else {
        return statement;
    };
    let (before, after) = (
        &file.text[..statement.start as usize],
        &file.text[statement.end as usize..],
    );
    let start = before.trim_end_matches([' ', '\t']).len();
    let rest = after.trim_start_matches([' ', '\t']);
    let line_end = ["\r\n", "\n"].into_iter().find(|end| rest.starts_with(end));
    let begins = start == 0 || before[..start].ends_with('\n');
    match (begins, line_end) {
        (true, Some(line_end)) => {
            let end = statement.end as usize + (after.len() - rest.len()) + line_end.len();
            Span::new(statement.file, start, end)
        }
        _ => statement,
    }
}
