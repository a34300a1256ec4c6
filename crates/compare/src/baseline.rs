//! What was found before.

use crate::Place;
use quillet_syntax::{Finding, Severity};
use std::collections::BTreeMap;

/// What was found before, pen by pen: what is no graver now is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Baseline {
    known: BTreeMap<(String, String), Severity>,
}

impl Baseline {
    /// What was found, each finding with its place.
    pub fn of<'a>(found: impl IntoIterator<Item = (&'a Place, &'a Finding)>) -> Self {
        let mut baseline = Self::default();
        for (place, finding) in found {
            baseline.add(&place.to_string(), &finding.pens, finding.severity);
        }
        baseline
    }

    /// Adds what was found at a place in some pens; in none in particular, where there are none.
    pub fn add(&mut self, place: &str, pens: &[String], severity: Severity) {
        for pen in pens_or_none(pens) {
            let known = self
                .known
                .entry((place.to_owned(), pen))
                .or_insert(severity);
            *known = severity.max(*known);
        }
    }

    /// Whether a finding was there before, in every pen that shows it now, and no less grave.
    pub fn knows(&self, place: &Place, finding: &Finding) -> bool {
        let place = place.to_string();
        pens_or_none(&finding.pens).into_iter().all(|pen| {
            let known = self.known.get(&(place.clone(), pen));
            known.is_some_and(|known| *known >= finding.severity)
        })
    }
}

fn pens_or_none(pens: &[String]) -> Vec<String> {
    match pens {
        [] => vec![String::new()],
        _ => pens.to_vec(),
    }
}
