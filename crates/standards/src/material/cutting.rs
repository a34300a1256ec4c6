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
    dia_low_mm: Option<f64>,
    dia_high_mm: Option<f64>,
    source: String,
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
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// The group that carries a material of the reference table; polystyrene and styrenes are not
    /// carried, high-tensile bronze goes slower than the bronze of pens, and nylon turned at high
    /// speed and acetal turned with carbide are other processes than those carried.
    fn group(material: &str, operation: &str, tool: &str) -> Option<&'static str> {
        let carbide = tool == "carbide";
        Some(match (material, operation) {
            ("brass" | "brass and bronze, ordinary" | "brass CuZn39Pb3", _) => "brass",
            ("bronze", _) => "bronze",
            ("aluminium" | "aluminium alloys" | "aluminium 6061", _) => "aluminium",
            ("stainless steel", _) => "stainless-steel",
            ("low carbon steel", _) => "steel",
            ("plastics (thermosetting, bakelite type)", _) => "phenolic",
            ("thermosetting plastics, soft grades", _) => "phenolic",
            ("any (lower end for hard materials)", _) => "any",
            ("nylon, acetal, polycarbonate", _) => "acetal",
            ("nylon", "drilling") => "nylon",
            ("PTFE", _) => "ptfe",
            ("ABS", _) => "abs",
            ("cast acrylic (PMMA)", _) => "acrylic",
            ("polyester / urethane casting resin", _) => "casting-resin",
            ("ebonite (hard rubber)", _) => "ebonite",
            ("celluloid / cellulose acetate", _) => "celluloid",
            ("POM (acetal)", _) if !carbide => "acetal",
            ("hardwood", _) => "hardwood",
            ("titanium grade 5", _) => "titanium",
            ("sterling silver", _) => "silver",
            _ => return None,
        })
    }

    #[test]
    fn speeds_and_feeds_lie_in_the_handbooks_ranges() {
        let mut carried = 0;
        for row in quillet_reference::rows("machining.csv") {
            let operation = row.text("operation");
            let Some(group) = group(row.text("material"), operation, row.text("tool")) else {
                continue;
            };
            let found = if group == "any" {
                feed_for_drill(Length::mm(row.number("dia_high_mm"))).unwrap()
            } else {
                let operation = if operation == "turning" {
                    Operation::Turning
                } else {
                    Operation::Drilling
                };
                of_group(group, operation).unwrap()
            };
            for (low, high, ours) in [
                ("speed_low_m_min", "speed_high_m_min", found.speed_m_min()),
                ("feed_low_mm_rev", "feed_high_mm_rev", found.feed_mm_rev()),
            ] {
                if let (Some(low), Some(high), Some(ours)) =
                    (row.optional(low), row.optional(high), ours)
                {
                    assert!(low <= ours.low && ours.high <= high, "{row}: {ours:?}");
                }
            }
            carried += 1;
        }
        assert!(carried > 0, "no row is carried");
    }

    #[test]
    fn rows_are_unique_and_sourced() {
        let mut seen = BTreeSet::new();
        for row in ROWS.iter() {
            let from = row.dia_low_mm.filter(|_| row.group == "any");
            let key = (&row.group, row.operation, from.map(f64::to_bits));
            assert!(seen.insert(key), "{} twice", row.group);
            assert!(!row.source.is_empty(), "{}", row.group);
            for range in [row.speed_m_min(), row.feed_mm_rev()].into_iter().flatten() {
                assert!(0.0 < range.low && range.low <= range.high, "{}", row.group);
            }
        }
    }

    /// The check value that the reference's note gives: 60 m/min on 12 mm is 1592 rev/min.
    #[test]
    fn spindle_speed_of_the_handbooks_example() {
        assert_eq!(spindle_speed(60.0, Length::mm(12.0)).round(), 1592.0);
        assert_eq!(feed_for_drill(Length::mm(0.2)), None);
    }
}
