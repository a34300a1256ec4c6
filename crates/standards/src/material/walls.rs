//! Least walls and cautions by family: common practice.

use std::sync::LazyLock;

use quillet_geometry::Length;
use serde::Deserialize;

use super::family::Family;
use crate::{Source, table};

/// The least walls that a family of materials bears: common practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeastWalls {
    /// Between the roots of an outside and an inside thread.
    pub thread_over_thread: WarnError,
    /// Between a tenon's thread root and its bore.
    pub tenon_over_bore: WarnError,
    /// The lip of a mouth.
    pub lip: Length,
    /// A plain wall.
    pub plain: Length,
    /// The practice.
    pub source: Source,
}

/// A wall below which it may break, and one below which it will.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WarnError {
    /// Below this it may break.
    pub warn: Length,
    /// Below this it cannot be made.
    pub error: Length,
}

/// The least walls of a family.
pub fn least_walls(family: Family) -> LeastWalls {
    let row = row(family);
    LeastWalls {
        thread_over_thread: WarnError {
            warn: row.threads_warn_mm,
            error: row.threads_error_mm,
        },
        tenon_over_bore: WarnError {
            warn: row.tenon_warn_mm,
            error: row.tenon_error_mm,
        },
        lip: row.lip_mm,
        plain: row.plain_mm,
        source: table::source(TABLE),
    }
}

/// What a family asks of the maker's health. The machine's manual, the material's safety sheet,
/// local rules and trained practice come before it.
pub fn caution(family: Family) -> &'static str {
    &row(family).caution
}

fn row(family: Family) -> &'static WallRow {
    ROWS.iter()
        .find(|row| row.family == family)
        .unwrap_or_else(|| panic!("the table of families lacks {}", family.word()))
}

const TABLE: &str = include_str!("../../data/families.csv");

static ROWS: LazyLock<Vec<WallRow>> = LazyLock::new(|| table::rows(TABLE));

#[derive(Deserialize)]
struct WallRow {
    family: Family,
    #[serde(deserialize_with = "table::mm")]
    threads_warn_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    threads_error_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    tenon_warn_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    tenon_error_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    lip_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    plain_mm: Length,
    caution: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_family_has_its_row() {
        assert_eq!(ROWS.len(), Family::ALL.len());
        for family in Family::ALL {
            let walls = least_walls(family);
            assert!(walls.thread_over_thread.error < walls.thread_over_thread.warn);
            assert!(walls.tenon_over_bore.error < walls.tenon_over_bore.warn);
            assert!(walls.source.is_practice());
            assert!(!caution(family).is_empty());
        }
    }

    #[test]
    fn resin_has_the_defaults_of_the_rules() {
        let walls = least_walls(Family::Resin);
        assert_eq!(walls.thread_over_thread.warn, Length::mm(0.8));
        assert_eq!(walls.tenon_over_bore.error, Length::mm(0.3));
        assert_eq!(least_walls(Family::Metal).plain, Length::mm(0.3));
    }
}
