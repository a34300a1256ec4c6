//! What was found before, read from the SARIF that was written of it.

use super::sarif::PLACE;
use quillet_compare::Baseline;
use quillet_syntax::Severity;
use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
struct Log {
    runs: Vec<Run>,
}

#[derive(Deserialize)]
struct Run {
    #[serde(default)]
    results: Vec<Found>,
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Found {
    #[serde(default)]
    partial_fingerprints: BTreeMap<String, String>,
    #[serde(default)]
    level: Option<String>,
    #[serde(default)]
    suppressions: Vec<serde_json::Value>,
    #[serde(default)]
    properties: Properties,
}

#[derive(Default, Deserialize)]
struct Properties {
    #[serde(default)]
    pens: Vec<String>,
}

/// What was found before, by a SARIF log; what was accepted then does not count.
///
/// # Errors
///
/// Where the text is no SARIF, or tells no places as we do; says which.
pub fn baseline_of_sarif(text: &str) -> Result<Baseline, String> {
    let log: Log = serde_json::from_str(text)
        .map_err(|error| format!("it is no SARIF ({error}); check --format sarif writes one"))?;
    let mut baseline = Baseline::default();
    for found in log.runs.into_iter().flat_map(|run| run.results) {
        let place = found
            .partial_fingerprints
            .get(PLACE)
            .ok_or_else(|| format!("a result has no {PLACE}; check --format sarif writes it"))?;
        let severity = match found.level.as_deref() {
            Some("error") => Severity::Error,
            Some("note" | "none") => Severity::Note,
            // SARIF's level where none is given.
            _ => Severity::Warning,
        };
        if found.suppressions.is_empty() {
            baseline.add(place, &found.properties.pens, severity);
        }
    }
    Ok(baseline)
}
