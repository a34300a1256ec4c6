//! The tables under `data/`: one row a size, one source a row, built into the program.

use csv::StringRecord;
use csv_core::{ReadRecordResult, Reader, ReaderBuilder};
use serde::Deserialize;
use serde::de::{DeserializeOwned, Deserializer, Error};
use std::fmt::Display;
use std::sync::{LazyLock, Mutex, PoisonError};

use quillet_geometry::Length;

use crate::Source;

/// What reads each table: to make one takes longer than to read a table.
static READER: LazyLock<Mutex<Reader>> =
    LazyLock::new(|| Mutex::new(ReaderBuilder::new().comment(Some(b'#')).build()));

/// The rows of a table, in order. Lines that begin with `#` say where the table comes from.
///
/// # Panics
/// When the table does not parse. The tables are part of the program and a test reads every one.
pub(crate) fn rows<T: DeserializeOwned>(table: &str) -> Vec<T> {
    let records = records(table);
    let (headers, rows) = records
        .split_first()
        .unwrap_or_else(|| damaged("it is empty"));
    let row = |row: &StringRecord| row.deserialize(Some(headers));
    let rows = rows.iter().map(row);
    rows.map(|row| row.unwrap_or_else(damaged)).collect()
}

fn damaged<T>(fault: impl Display) -> T {
    panic!("a built-in table is damaged: {fault}")
}

/// The records of a table, its heads first.
fn records(table: &str) -> Vec<StringRecord> {
    // Whoever panicked with it read a damaged table; it begins anew.
    let mut reader = READER.lock().unwrap_or_else(PoisonError::into_inner);
    reader.reset();
    let (mut cells, mut ends) = (vec![0; table.len()], vec![0; table.len()]);
    let (mut left, mut written, mut count) = (table.as_bytes(), 0, 0);
    let mut records = Vec::new();
    loop {
        let (outcome, read, more, cut) =
            reader.read_record(left, &mut cells[written..], &mut ends[count..]);
        (left, written, count) = (&left[read..], written + more, count + cut);
        match outcome {
            ReadRecordResult::End => return records,
            ReadRecordResult::Record => {
                records.push(record(&cells, &ends[..count]));
                (written, count) = (0, 0);
            }
            // Of the last row it is still to be told that nothing follows.
            ReadRecordResult::InputEmpty => {}
            full => damaged(format_args!("{full:?}")),
        }
    }
}

fn record(cells: &[u8], ends: &[usize]) -> StringRecord {
    let starts = std::iter::once(&0).chain(ends);
    let cell = |(start, end): (&usize, &usize)| str::from_utf8(&cells[*start..*end]);
    let record: Result<_, _> = starts.zip(ends).map(cell).collect();
    record.unwrap_or_else(damaged)
}

/// The source that a table's `# source:` line names for all its rows.
pub(crate) fn source(table: &'static str) -> Source {
    Source::new(
        table
            .lines()
            .find_map(|line| line.strip_prefix("# source: "))
            .unwrap_or("a built-in table without a source"),
    )
}

/// A cell in millimetres, read exactly.
pub(crate) fn mm<'de, D: Deserializer<'de>>(cell: D) -> Result<Length, D::Error> {
    let text = String::deserialize(cell)?;
    Length::parse_mm(&text).ok_or_else(|| D::Error::custom(format!("{text:?} is no length in mm")))
}

/// A cell in millimetres, or none where it is empty.
pub(crate) fn optional_mm<'de, D: Deserializer<'de>>(cell: D) -> Result<Option<Length>, D::Error> {
    let text = String::deserialize(cell)?;
    if text.is_empty() {
        return Ok(None);
    }
    Length::parse_mm(&text)
        .map(Some)
        .ok_or_else(|| D::Error::custom(format!("{text:?} is no length in mm")))
}

/// A cell that says `yes` or `no`.
pub(crate) fn yes<'de, D: Deserializer<'de>>(cell: D) -> Result<bool, D::Error> {
    match String::deserialize(cell)?.as_str() {
        "yes" => Ok(true),
        "no" => Ok(false),
        other => Err(D::Error::custom(format!("{other:?} is neither yes nor no"))),
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    /// Every table names its source, for the table or row by row.
    #[test]
    fn every_row_of_every_table_is_sourced() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
        let mut tables = 0;
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let text = std::fs::read_to_string(&path).unwrap();
            let name = path.display();
            assert!(text.starts_with("# title: "), "{name}");
            let source = text
                .lines()
                .find_map(|line| line.strip_prefix("# source: "))
                .unwrap_or_else(|| panic!("{name} names no source"));
            if let Some(column) = source.strip_prefix("column ") {
                let column = column.split(';').next().unwrap();
                let mut reader = csv::ReaderBuilder::new()
                    .comment(Some(b'#'))
                    .from_reader(text.as_bytes());
                let at = reader
                    .headers()
                    .unwrap()
                    .iter()
                    .position(|header| header == column)
                    .unwrap_or_else(|| panic!("{name} has no column {column}"));
                for row in reader.records() {
                    let row = row.unwrap();
                    assert!(!row[at].trim().is_empty(), "{name}: {row:?}");
                }
            }
            tables += 1;
        }
        assert!(tables > 0, "no tables");
    }
}
