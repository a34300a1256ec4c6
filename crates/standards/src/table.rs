//! The tables under `data/`: one row a size, one source a row, built into the program.

use serde::Deserialize;
use serde::de::{DeserializeOwned, Deserializer, Error};

use quillet_geometry::Length;

use crate::Source;

/// The rows of a table, in order. Lines that begin with `#` say where the table comes from.
///
/// # Panics
/// When the table does not parse. The tables are part of the program and a test reads every one.
pub(crate) fn rows<T: DeserializeOwned>(table: &str) -> Vec<T> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(table.as_bytes())
        .deserialize()
        .map(|row| row.unwrap_or_else(|fault| panic!("a built-in table is damaged: {fault}")))
        .collect()
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
