//! Moves a number of what is found to the nearest value at which it is found no more.

use super::{Action, ActionKind, concerns};
use crate::Cursor;
use quillet_room::{Number, Numbers, Probe, nearest};
use quillet_syntax::{Finding, Severity, Span};
use std::collections::BTreeMap;

/// So many numbers of one finding are tried.
const MOST_TRIED: usize = 3;

/// For each finding at a place, every number of its places that can cure it alone; none of a design
/// that could not all be resolved.
pub(super) fn moved(
    cursor: Cursor<'_>,
    findings: &[Finding],
    within: Span,
    called_off: &dyn Fn() -> bool,
) -> Vec<Action> {
    let analysis = cursor.analysis;
    let design = &analysis.design;
    let here = findings.iter().enumerate();
    let mut here = here.filter(|(_, it)| concerns(it, within)).peekable();
    if here.peek().is_none() || !design.findings.is_empty() {
        return Vec::new();
    }
    let numbers = Numbers::of(design);
    let Some(examined) = analysis.examined_until(called_off) else {
        return Vec::new();
    };
    let probe = |until| Probe::of(analysis.loaded(), (design, examined), None, until);
    // One for all numbers of findings as grave as each other.
    let mut probes: BTreeMap<Severity, Probe<'_>> = BTreeMap::new();
    let mut actions = Vec::new();
    for (index, finding) in here {
        let labels = finding.labels.iter().map(|it| it.span);
        let places: Vec<Span> = [finding.span].into_iter().chain(labels).collect();
        let holds = |it: &&Number| places.iter().any(|place| place.contains(it.span));
        for number in numbers.all().iter().filter(holds).take(MOST_TRIED) {
            let until = finding.severity.min(Severity::Warning);
            let probe = probes.entry(until).or_insert_with(|| probe(until));
            let Some(value) = nearest(probe, number, finding, called_off) else {
                continue;
            };
            let edit = number.written(value);
            actions.push(Action {
                title: format!(
                    "move {} to {}, the nearest that passes",
                    number.name, edit.text
                ),
                kind: ActionKind::Fix,
                edits: vec![edit],
                cures: Some(index),
                preferred: false,
            });
        }
    }
    actions
}
