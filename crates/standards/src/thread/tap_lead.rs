//! Chamfer leads of taps: how many pitches a tap takes to cut full form.

use std::sync::LazyLock;

use quillet_geometry::{Length, Limits};
use serde::Deserialize;

use super::form::ThreadForm;
use crate::{Source, table};

/// A form of tap and its chamfer lead.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct TapLead {
    form: String,
    lead_min_pitches: f64,
    lead_max_pitches: f64,
    suits: String,
    source: String,
}

impl TapLead {
    /// The letter of DIN 2197, or the inch tap's name: `C`, `bottoming`.
    pub fn form(&self) -> &str {
        &self.form
    }

    /// The least and the greatest lead, in pitches.
    pub fn pitches(&self) -> (f64, f64) {
        (self.lead_min_pitches, self.lead_max_pitches)
    }

    /// What it is for.
    pub fn suits(&self) -> &str {
        &self.suits
    }

    /// The least and the greatest lead on a tap of this thread. A tap for several starts has a
    /// longer one: it is measured.
    pub fn length(&self, thread: &ThreadForm) -> Limits {
        let pitches = |count: f64| Length::mm(thread.pitch_mm() * count);
        Limits::new(
            pitches(self.lead_min_pitches),
            pitches(self.lead_max_pitches),
        )
    }

    /// Where it comes from.
    pub fn source(&'static self) -> Source {
        Source::new(&self.source)
    }
}

/// All forms of tap.
pub fn tap_leads() -> &'static [TapLead] {
    &ROWS
}

static ROWS: LazyLock<Vec<TapLead>> =
    LazyLock::new(|| table::rows(include_str!("../../data/tap_leads.csv")));

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_are_unique_and_sourced() {
        for (at, row) in tap_leads().iter().enumerate() {
            assert!(row.pitches().0 < row.pitches().1, "{}", row.form());
            assert!(row.source().is_from_memory(), "{}", row.form());
            assert!(
                tap_leads()[..at]
                    .iter()
                    .all(|other| other.form() != row.form())
            );
        }
    }

    #[test]
    fn a_lead_is_so_many_pitches() {
        let form: ThreadForm = "M10x0.75 starts 2".parse().unwrap();
        let c = tap_leads().iter().find(|row| row.form() == "C").unwrap();
        assert_eq!(
            c.length(&form),
            Limits::new(Length::mm(1.5), Length::mm(2.25))
        );
    }
}
