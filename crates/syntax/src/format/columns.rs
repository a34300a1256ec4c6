//! Rows to lines, with columns and comments aligned.

use super::rows::Row;

/// Where comments after statements begin, unless a statement is too long for it.
const COMMENT_COLUMN: usize = 39;

/// The lines of the rows, blank lines included, without line ends.
pub(super) fn lines(mut rows: Vec<Row<'_>>) -> Vec<String> {
    align_tables(&mut rows);
    let mut codes: Vec<String> = rows.iter().map(code).collect();
    align_comments(&rows, &mut codes);
    joined(&rows, codes)
}

/// The same without columns: comments one blank behind their statements.
pub(super) fn loose_lines(rows: Vec<Row<'_>>) -> Vec<String> {
    let code = |row: &Row<'_>| match row.comment.is_some() && !row.cells.is_empty() {
        true => code(row) + " ",
        false => code(row),
    };
    let codes = rows.iter().map(code).collect();
    joined(&rows, codes)
}

fn joined(rows: &[Row<'_>], codes: Vec<String>) -> Vec<String> {
    let mut lines = Vec::with_capacity(rows.len());
    for (row, code) in rows.iter().zip(codes) {
        if row.blank {
            lines.push(String::new());
        }
        lines.push(code + row.comment.unwrap_or(""));
    }
    lines
}

/// Pads the cells of neighbours that share a table.
fn align_tables(rows: &mut [Row<'_>]) {
    let mut start = 0;
    while start < rows.len() {
        let end = start + table_length(&rows[start..]);
        let group = &mut rows[start..end];
        for column in 0.. {
            let width = group
                .iter()
                .filter(|row| row.table.is_some() && row.cells.len() > column)
                .map(|row| row.cells[column].chars().count())
                .max();
            let Some(width) = width else { break };
            for row in group.iter_mut() {
                if row.table.is_some() && row.cells.len() > column + 1 {
                    let cell = &mut row.cells[column];
                    let pad = width - cell.chars().count();
                    cell.extend(std::iter::repeat_n(' ', pad));
                }
            }
        }
        start = end;
    }
}

/// How many rows from the first on share its table; at least one.
fn table_length(rows: &[Row<'_>]) -> usize {
    let first = &rows[0];
    let others = rows[1..].iter().take_while(|row| {
        let same = row.table == first.table && row.depth == first.depth;
        first.table.is_some() && !row.blank && (row.passes || same)
    });
    1 + others.count()
}

/// A row without its comment.
fn code(row: &Row<'_>) -> String {
    format!("{}{}", "  ".repeat(row.depth), row.cells.join(" "))
}

/// Pads rows that are followed by a comment to a common column.
fn align_comments(rows: &[Row<'_>], codes: &mut [String]) {
    let follows = |at: usize| {
        rows.get(at)
            .is_some_and(|row: &Row| row.comment.is_some() && !row.cells.is_empty())
    };
    let mut start = 0;
    while start < rows.len() {
        let mut end = start;
        while follows(end) && (end == start || !rows[end].blank) {
            end += 1;
        }
        let widest = codes[start..end]
            .iter()
            .map(|code| code.chars().count())
            .max();
        let column = widest.map_or(0, |widest| COMMENT_COLUMN.max(widest + 2));
        for code in &mut codes[start..end] {
            let pad = column - code.chars().count();
            code.extend(std::iter::repeat_n(' ', pad));
        }
        start = end.max(start + 1);
    }
}
