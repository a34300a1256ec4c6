//! What is found in two states, as SARIF 2.1.0: each result with what has become of it.

use crate::report::check::sarif::{Log, whole_log};
use quillet_compare::{Comparison, FindingChange, FindingState};
use quillet_model::SourceFile;
use quillet_syntax::FileId;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// One run; a result stands once however many pens show it. Of pens that are the same nothing is reported.
pub(super) fn text(it: &Comparison, name: &dyn Fn(&SourceFile) -> String) -> String {
    // A place may be new in one pen and known in another: it is as new as in the worst.
    let mut each: BTreeMap<String, &FindingChange> = BTreeMap::new();
    for change in it.findings() {
        let known = each.entry(change.place.to_string()).or_insert(change);
        if rank(change.state) < rank(known.state) {
            *known = change;
        }
    }
    let mut rules = Vec::new();
    let mut results: Vec<Value> = Vec::new();
    for change in each.into_values() {
        let file = |id: FileId| {
            change
                .files
                .iter()
                .find(|it| it.id == id)
                .map(AsRef::as_ref)
        };
        let mut log = Log::of(&file, name, std::mem::take(&mut rules));
        let mut result = log.result(&change.finding, &change.place, None);
        result["baselineState"] = json!(baseline_state(change.state));
        results.push(result);
        rules = log.rules;
    }
    whole_log(&rules, results)
}

fn rank(state: FindingState) -> u8 {
    match state {
        FindingState::New => 0,
        FindingState::Graver => 1,
        FindingState::Milder | FindingState::Reworded => 2,
        FindingState::Same => 3,
        FindingState::Gone => 4,
    }
}

fn baseline_state(state: FindingState) -> &'static str {
    match state {
        FindingState::New => "new",
        FindingState::Gone => "absent",
        FindingState::Same => "unchanged",
        FindingState::Graver | FindingState::Milder | FindingState::Reworded => "updated",
    }
}
