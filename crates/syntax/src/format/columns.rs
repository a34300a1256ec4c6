//! Rows to lines. Every column has its place whatever stands above and below, so that no line moves
//! because of another: a change is the lines that were changed, and two changes merge.

use super::rows::Row;

/// Where comments after statements begin.
const COMMENT: usize = 39;

/// The lines of the rows, blank lines included, without line ends.
pub(super) fn lines(rows: Vec<Row<'_>>) -> Vec<String> {
    set(&rows, |row| {
        let indent = "  ".repeat(row.depth);
        let begin = indent.chars().count();
        let cells = row.cells.iter();
        let mut code = cells.fold(indent, |code, cell| {
            padded(code, begin + cell.column) + &cell.text
        });
        if row.comment.is_some() && !row.cells.is_empty() {
            code = padded(code, COMMENT);
        }
        code
    })
}

/// The same without columns: one blank where the canonical form may have several.
pub(super) fn loose_lines(rows: Vec<Row<'_>>) -> Vec<String> {
    set(&rows, |row| {
        let cells = row.cells.iter().map(|it| it.text.as_str());
        let code = "  ".repeat(row.depth) + &cells.collect::<Vec<_>>().join(" ");
        match row.comment.is_some() && !row.cells.is_empty() {
            true => code + " ",
            false => code,
        }
    })
}

fn set(rows: &[Row<'_>], code: impl Fn(&Row<'_>) -> String) -> Vec<String> {
    let mut lines = Vec::with_capacity(rows.len());
    for row in rows {
        if row.blank {
            lines.push(String::new());
        }
        lines.push(code(row) + row.comment.unwrap_or(""));
    }
    lines
}

/// A line as far as a column; what is too long for it takes one blank.
fn padded(mut line: String, column: usize) -> String {
    let length = line.chars().count();
    let is_begun = line.ends_with(|last| last != ' ');
    let pad = column.saturating_sub(length).max(usize::from(is_begun));
    line.extend(std::iter::repeat_n(' ', pad));
    line
}
