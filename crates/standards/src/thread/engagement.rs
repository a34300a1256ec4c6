//! Lengths of thread engagement: the groups S, N and L of ISO 965-1.

use std::sync::LazyLock;

use quillet_geometry::{Length, Limits};
use serde::Deserialize;

use super::form::{ThreadForm, ThreadSize};
use crate::{Source, table};

/// The group that a length of engagement falls in. It chooses tolerances; it says nothing about
/// strength.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EngagementGroup {
    /// Short.
    Short,
    /// Normal.
    Normal,
    /// Long.
    Long,
}

/// The normal length of engagement of a thread: over the least, up to and including the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NormalEngagement {
    /// Over the least and up to the greatest.
    pub length: Limits,
    /// Where it comes from.
    pub source: Source,
}

impl NormalEngagement {
    /// The group of a length.
    pub fn group(&self, engaged: Length) -> EngagementGroup {
        if engaged <= self.length.min() {
            EngagementGroup::Short
        } else if engaged <= self.length.max() {
            EngagementGroup::Normal
        } else {
            EngagementGroup::Long
        }
    }
}

impl ThreadForm {
    /// The normal length of engagement by ISO 965-1: by table, else 2.24·P·d^0.2 to 6.7·P·d^0.2
    /// with d the least diameter of the range. None for inch threads.
    pub fn normal_engagement(&self) -> Option<NormalEngagement> {
        let ThreadSize::Metric { major, pitch } = self.size() else {
            return None;
        };
        let in_range = |row: &&EngagementRow| major > row.d_over_mm && major <= row.d_up_to_mm;
        if let Some(row) = ROWS
            .iter()
            .filter(in_range)
            .find(|row| row.pitch_mm == pitch)
        {
            return Some(NormalEngagement {
                length: Limits::new(row.n_over_mm, row.n_up_to_mm),
                source: Source::new(&row.source),
            });
        }
        let over = ROWS
            .iter()
            .find(in_range)
            .map_or(major, |row| row.d_over_mm);
        let times = |factor: f64| Length::mm(factor * pitch.to_mm() * over.to_mm().powf(0.2));
        Some(NormalEngagement {
            length: Limits::new(times(2.24), times(6.7)),
            source: Source::new(
                "ISO 965-1 formula, from memory; the standard prints no row for this size",
            ),
        })
    }
}

static ROWS: LazyLock<Vec<EngagementRow>> =
    LazyLock::new(|| table::rows(include_str!("../../data/engagement.csv")));

#[derive(Deserialize)]
struct EngagementRow {
    #[serde(deserialize_with = "table::mm")]
    d_over_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    d_up_to_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    pitch_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    n_over_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    n_up_to_mm: Length,
    source: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn normal_lengths_are_those_printed() {
        for row in quillet_reference::rows("thread_engagement_length.csv") {
            let form: ThreadForm = row.text("designation").parse().unwrap();
            let normal = form.normal_engagement().unwrap();
            for (column, found) in [
                ("N_over_mm", normal.length.min()),
                ("N_up_to_mm", normal.length.max()),
            ] {
                assert_eq!(found.to_mm(), row.number(column), "{row}: {column}");
            }
            assert_eq!(normal.group(normal.length.min()), EngagementGroup::Short);
            assert_eq!(normal.group(normal.length.max()), EngagementGroup::Normal);
            assert_eq!(normal.group(Length::mm(99.0)), EngagementGroup::Long);
        }
    }

    #[test]
    fn a_size_without_a_row_goes_by_formula_and_says_so() {
        let form: ThreadForm = "M13x0.8".parse().unwrap();
        let normal = form.normal_engagement().unwrap();
        assert!(normal.source.text().contains("formula"));
        assert!((normal.length.min().to_mm() - 2.24 * 0.8 * 11.2f64.powf(0.2)).abs() < 1e-6);
    }

    #[test]
    fn rows_are_in_order_and_sourced() {
        for pair in ROWS.windows(2) {
            let key = |row: &EngagementRow| (row.d_over_mm, row.pitch_mm);
            assert!(key(&pair[0]) < key(&pair[1]));
        }
        assert!(ROWS.iter().all(|row| !row.source.is_empty()));
    }
}
