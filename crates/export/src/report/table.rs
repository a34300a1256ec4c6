//! Columns under each other.

/// What stands in a column of a row.
pub(super) struct Cell {
    text: String,
    right: bool,
}

impl Cell {
    /// Words, from the left.
    pub(super) fn left(text: impl Into<String>) -> Cell {
        Cell {
            text: text.into(),
            right: false,
        }
    }

    /// A figure, against the right.
    pub(super) fn right(text: impl Into<String>) -> Cell {
        Cell {
            text: text.into(),
            right: true,
        }
    }

    /// What it says.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    fn width(&self) -> usize {
        self.text.chars().count()
    }
}

/// Rows under a head, so many blanks from the edge; a column that is empty throughout is left out.
/// The head of figures stands against the right as they do.
pub(super) fn table(indent: usize, head: &[&str], rows: &[Vec<Cell>]) -> String {
    let column = |at: usize| rows.iter().filter_map(move |row| row.get(at));
    let widths = widths(head, rows);
    let columns: Vec<usize> = widths.iter().map(|it| it.0).collect();
    let gap = " ".repeat(GAP);
    let line = |cells: Vec<&Cell>| {
        let mut out = " ".repeat(indent);
        for ((_, width), cell) in widths.iter().zip(cells) {
            let fill = " ".repeat(width.saturating_sub(cell.width()));
            match cell.right {
                true => out += &format!("{fill}{}{gap}", cell.text),
                false => out += &format!("{}{fill}{gap}", cell.text),
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

/// Between two columns.
pub(super) const GAP: usize = 3;

/// The columns of which something is filled, each with how wide it is.
pub(super) fn widths(head: &[&str], rows: &[Vec<Cell>]) -> Vec<(usize, usize)> {
    let column = |at: usize| rows.iter().filter_map(move |row| row.get(at));
    let filled = |at: &usize| column(*at).any(|cell| !cell.text.is_empty());
    let width = |at: usize| {
        let cells = column(at).map(Cell::width);
        cells.chain([head[at].chars().count()]).max().unwrap_or(0)
    };
    let columns = (0..head.len()).filter(filled);
    columns.map(|at| (at, width(at))).collect()
}

/// Columns under each other: text to the left, numbers to the right.
pub(super) fn columns(head: &[&str], rows: &[Vec<String>]) -> String {
    let width = |at: usize| {
        let cells = rows
            .iter()
            .filter_map(|row| row.get(at))
            .map(|cell| cell.chars().count());
        cells.chain([head[at].chars().count()]).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..head.len()).map(width).collect();
    let number = |at: usize| {
        let mut cells = rows
            .iter()
            .filter_map(|row| row.get(at))
            .filter(|cell| !cell.is_empty());
        cells.all(|cell| cell.parse::<f64>().is_ok())
    };
    let numbers: Vec<bool> = (0..head.len()).map(number).collect();
    let line = |cells: &[String]| {
        let mut out = String::from(" ");
        for (at, cell) in cells.iter().enumerate() {
            let fill = " ".repeat(widths[at].saturating_sub(cell.chars().count()));
            match numbers.get(at).copied().unwrap_or(false) {
                true => out += &format!(" {fill}{cell} "),
                false => out += &format!(" {cell}{fill} "),
            }
        }
        out.trim_end().to_owned() + "\n"
    };
    let head: Vec<String> = head.iter().map(|cell| (*cell).to_owned()).collect();
    let rows = rows.iter().map(|row| line(row));
    line(&head) + &rows.collect::<String>()
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
