//! A table no wider than what it is shown on: one of its columns goes on in lines below.

use crate::report::table::{Cell, GAP, widths};

/// A column is made no narrower than this.
const LEAST: usize = 24;

/// Rows of which one column goes on in rows of its own, so that none is wider than `width` letters.
pub(super) fn folded(
    head: &[&str],
    rows: Vec<Vec<Cell>>,
    column: usize,
    width: usize,
) -> Vec<Vec<Cell>> {
    let widths = widths(head, &rows);
    let others: usize = widths
        .iter()
        .filter(|it| it.0 != column)
        .map(|it| it.1 + GAP)
        .sum();
    let most = width.saturating_sub(others).max(LEAST);
    let fold = |mut row: Vec<Cell>| {
        let Some(cell) = row.get_mut(column) else {
            return vec![row];
        };
        let mut lines = lines(cell.text(), most).into_iter();
        *cell = Cell::left(lines.next().unwrap_or_default());
        let more = lines.map(|line| {
            let blanks = head.iter().map(|_| Cell::left(""));
            let mut more: Vec<Cell> = blanks.collect();
            more[column] = Cell::left(line);
            more
        });
        let more: Vec<Vec<Cell>> = more.collect();
        [row].into_iter().chain(more).collect()
    };
    rows.into_iter().flat_map(fold).collect()
}

/// A text in lines of so many letters at most; a stretch, `5.80 .. 8.75`, is not broken.
fn lines(text: &str, most: usize) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match pieces.last_mut() {
            Some(last) if word == ".." || last.ends_with(" ..") => {
                *last += " ";
                *last += word;
            }
            _ => pieces.push(word.to_owned()),
        }
    }
    let mut lines: Vec<String> = Vec::new();
    for piece in pieces {
        let long = piece.chars().count();
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + long <= most => {
                *line += " ";
                *line += &piece;
            }
            _ => lines.push(piece),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::table::table;

    #[test]
    fn what_is_too_wide_goes_on_below() {
        let row = |name: &str, may_be: &str, above: &str| {
            vec![Cell::left(name), Cell::left(may_be), Cell::left(above)]
        };
        let head = ["number", "may be", "above"];
        let all = || {
            vec![
                row(
                    "a.b",
                    "10.8, 10.9, 11, 11.1, 11.2, 11.3, 11.4, 11.5",
                    "> thin-wall",
                ),
                row("c", "1.00 .. 2.00, 3.00 .. 4.00, 5.00 .. 6.00", ""),
            ]
        };
        let shown = |width: usize| table(0, &head, &folded(&head, all(), 1, width));
        assert_eq!(
            shown(50),
            "number   may be                        above\n\
             a.b      10.8, 10.9, 11, 11.1, 11.2,   > thin-wall\n         \
             11.3, 11.4, 11.5\n\
             c        1.00 .. 2.00, 3.00 .. 4.00,\n         \
             5.00 .. 6.00\n"
        );
        let wide = shown(200);
        assert_eq!(wide.lines().count(), 3);
        assert_eq!(wide, table(0, &head, &all()));
        for width in 0..120 {
            let most = shown(width).lines().map(|it| it.chars().count()).max();
            assert!(
                most <= Some(width.max(9 + LEAST + GAP + 11)),
                "{width}: {most:?}"
            );
        }
    }
}
