//! Reads the published reference tables that the tests of the other crates check against.
//!
//! The tables live in the folder named by `QUILLET_REFERENCE_DIR` when that is set, else in
//! `tests/reference/` of the workspace, so another table of the same columns can stand in.
//! A development-only crate: a table that is missing or malformed stops the test with its name.

use std::path::PathBuf;

/// The path of a reference table, e.g. `tap_drills.csv`.
pub fn path(file: &str) -> PathBuf {
    match std::env::var_os("QUILLET_REFERENCE_DIR") {
        Some(folder) => PathBuf::from(folder).join(file),
        None => PathBuf::from(concat!(
            env!("CARGO_MANIFEST_DIR"),
            "/../../tests/reference"
        ))
        .join(file),
    }
}

/// All rows of a reference table, in order; lines that begin with `#` are skipped.
///
/// # Panics
/// When the table is missing, has no row, or is not a CSV file with a header row.
pub fn rows(file: &str) -> Vec<Row> {
    let path = path(file);
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(&path)
        .unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
    let headers = reader
        .headers()
        .unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
        .clone();
    let rows: Vec<Row> = reader
        .into_records()
        .map(|record| Row {
            file: file.to_owned(),
            headers: headers.clone(),
            record: record.unwrap_or_else(|fault| panic!("{}: {fault}", path.display())),
        })
        .collect();
    assert!(!rows.is_empty(), "{}: no rows", path.display());
    rows
}

/// One row of a reference table, read by the names of its columns.
#[derive(Debug, Clone)]
pub struct Row {
    file: String,
    headers: csv::StringRecord,
    record: csv::StringRecord,
}

impl Row {
    /// The cell in `column`, trimmed; an empty cell is an empty string.
    ///
    /// # Panics
    /// When the table has no such column.
    pub fn text(&self, column: &str) -> &str {
        let at = self
            .headers
            .iter()
            .position(|header| header.trim() == column)
            .unwrap_or_else(|| panic!("{}: no column {column:?}", self.file));
        self.record.get(at).unwrap_or("").trim()
    }

    /// The number in `column`, or none when the cell is empty.
    ///
    /// # Panics
    /// When the cell holds something else.
    pub fn optional(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| {
            text.parse()
                .unwrap_or_else(|_| panic!("{self}: {column} is {text:?}, a number was expected"))
        })
    }

    /// The number in `column`.
    ///
    /// # Panics
    /// When the cell is empty or holds something else.
    pub fn number(&self, column: &str) -> f64 {
        self.optional(column)
            .unwrap_or_else(|| panic!("{self}: {column} is empty, a number was expected"))
    }
}

/// The file and line of the row, for the message of a failed check.
impl std::fmt::Display for Row {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let line = self.record.position().map_or(0, csv::Position::line);
        write!(out, "{} line {line}", self.file)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_is_read_by_the_names_of_its_columns() {
        let rows = rows("volumes_of_revolution.csv");
        let cylinder = &rows[0];
        assert_eq!(cylinder.text("solid"), "cylinder");
        assert!(cylinder.number("volume_mm3") > 0.0);
        assert!(
            cylinder
                .to_string()
                .starts_with("volumes_of_revolution.csv line ")
        );
    }

    #[test]
    #[should_panic(expected = "no column")]
    fn a_missing_column_is_named() {
        rows("volumes_of_revolution.csv")[0].text("mass");
    }
}
