//! Usual sizes of bought parts: cartridges, converters, refills. For a first sketch; the part in
//! hand is measured.

use std::sync::LazyLock;

use quillet_geometry::Length;
use serde::Deserialize;

use crate::{Source, table};

/// A bought part at its usual size: common practice, from memory.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct BoughtPart {
    kind: String,
    title: String,
    #[serde(deserialize_with = "table::mm")]
    length_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    diameter_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    bore_to_pass_mm: Length,
    ink_ml: Option<f64>,
}

impl BoughtPart {
    /// A short name, lower-case with hyphens.
    pub fn kind(&self) -> &str {
        &self.kind
    }

    /// What it is.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// Its length over all.
    pub const fn length(&self) -> Length {
        self.length_mm
    }

    /// Its greatest diameter.
    pub const fn diameter(&self) -> Length {
        self.diameter_mm
    }

    /// The bore it needs to pass.
    pub const fn bore_to_pass(&self) -> Length {
        self.bore_to_pass_mm
    }

    /// The ink it holds, in ml.
    pub const fn ink_ml(&self) -> Option<f64> {
        self.ink_ml
    }

    /// The practice.
    pub fn source(&self) -> Source {
        table::source(TABLE)
    }
}

/// All of them.
pub fn all() -> &'static [BoughtPart] {
    &ROWS
}

const TABLE: &str = include_str!("../data/bought.csv");

static ROWS: LazyLock<Vec<BoughtPart>> = LazyLock::new(|| table::rows(TABLE));

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_unique_and_pass_their_bore() {
        for (at, part) in all().iter().enumerate() {
            assert!(all()[..at].iter().all(|other| other.kind != part.kind));
            assert!(part.diameter() < part.bore_to_pass(), "{}", part.kind());
            assert!(part.source().is_practice() && part.source().is_from_memory());
        }
    }
}
