//! Columns under each other.

/// What stands in a column of a row.
pub(crate) struct Cell {
    text: String,
    right: bool,
}

impl Cell {
    /// Words, from the left.
    pub(crate) fn left(text: impl Into<String>) -> Cell {
        Cell {
            text: text.into(),
            right: false,
        }
    }

    /// A figure, against the right.
    pub(crate) fn right(text: impl Into<String>) -> Cell {
        Cell {
            text: text.into(),
            right: true,
        }
    }

    fn width(&self) -> usize {
        self.text.chars().count()
    }
}

/// Rows under a head, so many blanks from the edge; a column that is empty throughout is left out.
/// The head of figures stands against the right as they do.
pub(crate) fn table(indent: usize, head: &[&str], rows: &[Vec<Cell>]) -> String {
    let column = |at: usize| rows.iter().filter_map(move |row| row.get(at));
    let filled = |at: &usize| column(*at).any(|cell| !cell.text.is_empty());
    let columns: Vec<usize> = (0..head.len()).filter(filled).collect();
    let width = |at: usize| {
        let cells = column(at).map(Cell::width);
        cells.chain([head[at].chars().count()]).max().unwrap_or(0)
    };
    let line = |cells: Vec<&Cell>| {
        let mut out = " ".repeat(indent);
        for (at, cell) in columns.iter().zip(cells) {
            let fill = " ".repeat(width(*at).saturating_sub(cell.width()));
            match cell.right {
                true => out += &format!("{fill}{}   ", cell.text),
                false => out += &format!("{}{fill}   ", cell.text),
            }
        }
        out.trim_end().to_owned() + "\n"
    };
    let heads: Vec<Cell> = head
        .iter()
        .enumerate()
        .map(|(at, text)| match column(at).any(|cell| cell.right) {
            true => Cell::right(*text),
            false => Cell::left(*text),
        })
        .collect();
    let top = line(columns.iter().filter_map(|at| heads.get(*at)).collect());
    let rows = rows.iter();
    let rows = rows.map(|row| line(columns.iter().filter_map(|at| row.get(*at)).collect()));
    top + &rows.collect::<String>()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_stand_under_each_other() {
        let row =
            |name: &str, size: &str| vec![Cell::left(name), Cell::right(size), Cell::left("")];
        let text = table(
            2,
            &["part", "length", "none"],
            &[row("cap", "64 mm"), row("barrel", "8 mm")],
        );
        assert_eq!(
            text,
            "  part     length\n  cap       64 mm\n  barrel     8 mm\n"
        );
    }
}
