//! Cutting speeds and feeds.

use std::f64::consts::PI;
use std::sync::LazyLock;

use quillet_geometry::Length;
use serde::Deserialize;

use crate::{Source, table};

/// What is done at the lathe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Operation {
    /// Turning and boring.
    Turning,
    /// Drilling.
    Drilling,
}

/// Speeds and feeds for an operation: where to begin. The limits of machine, chuck and collet come
/// first.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Cutting {
    group: String,
    operation: Operation,
    tool: String,
    speed_low_m_min: Option<f64>,
    speed_high_m_min: Option<f64>,
    feed_low_mm_rev: Option<f64>,
    feed_high_mm_rev: Option<f64>,
    most_rev_min: Option<f64>,
    dia_low_mm: Option<f64>,
    dia_high_mm: Option<f64>,
    source: String,
    second_low_m_min: Option<f64>,
    second_high_m_min: Option<f64>,
    second_source: String,
    note: String,
}

/// From low to high, in the unit the field that holds it names.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Where to begin.
    pub low: f64,
    /// Where to end.
    pub high: f64,
}

impl Cutting {
    /// The tool the figures are for.
    pub fn tool(&self) -> &str {
        &self.tool
    }

    /// Cutting speed in m/min.
    pub fn speed_m_min(&self) -> Option<Range> {
        range(self.speed_low_m_min, self.speed_high_m_min)
    }

    /// The fastest that practice goes on small work in a bench or wood lathe, rev/min, whatever the
    /// cutting speed allows: common practice, no published source.
    pub const fn most_rev_min(&self) -> Option<f64> {
        self.most_rev_min
    }

    /// The spindle speeds on a diameter, rev/min: its cutting speed's, no faster than practice goes.
    pub fn spindle_rev_min(&self, diameter: Length) -> Option<Range> {
        let speed = self.speed_m_min()?;
        let most = self.most_rev_min.unwrap_or(f64::INFINITY);
        let at = |m_min| spindle_speed(m_min, diameter).min(most);
        Some(Range {
            low: at(speed.low),
            high: at(speed.high),
        })
    }

    /// Feed in mm a turn.
    pub fn feed_mm_rev(&self) -> Option<Range> {
        range(self.feed_low_mm_rev, self.feed_high_mm_rev)
    }

    /// What to mind; empty for some.
    pub fn note(&self) -> &str {
        &self.note
    }

    /// Where it comes from.
    pub fn source(&'static self) -> Source {
        Source::new(&self.source)
    }

    /// What another source gives for the cutting speed, m/min, and which; none where there is no other.
    pub fn second(&'static self) -> Option<(Range, Source)> {
        let speed = range(self.second_low_m_min, self.second_high_m_min)?;
        Some((speed, Source::new(&self.second_source)))
    }
}

/// The spindle speed in turns a minute that gives a cutting speed on a diameter, 1000·v / (π·d).
pub fn spindle_speed(speed_m_min: f64, diameter: Length) -> f64 {
    1000.0 * speed_m_min / (PI * diameter.to_mm())
}

/// The feed of a drill by its diameter alone, where a material's own row has none.
pub fn feed_for_drill(diameter: Length) -> Option<&'static Cutting> {
    let mm = diameter.to_mm();
    ROWS.iter().find(|row| {
        row.group == "any"
            && row.dia_low_mm.is_some_and(|low| mm > low)
            && row.dia_high_mm.is_some_and(|high| mm <= high)
    })
}

/// Every group's row of an operation, in the order of the table.
pub fn cuttings(operation: Operation) -> impl Iterator<Item = (&'static str, &'static Cutting)> {
    let own = ROWS.iter().filter(move |row| row.operation == operation);
    own.filter(|row| row.group != "any")
        .map(|row| (row.group.as_str(), row))
}

/// The row of a group of materials.
pub(super) fn of_group(group: &str, operation: Operation) -> Option<&'static Cutting> {
    ROWS.iter()
        .find(|row| row.group == group && row.operation == operation)
}

fn range(low: Option<f64>, high: Option<f64>) -> Option<Range> {
    Some(Range {
        low: low?,
        high: high?,
    })
}

static ROWS: LazyLock<Vec<Cutting>> =
    LazyLock::new(|| table::rows(include_str!("../../data/machining.csv")));

#[cfg(test)]
mod tests;
