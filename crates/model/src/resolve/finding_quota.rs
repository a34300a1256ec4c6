//! How many findings of one rule a file is given.

use quillet_syntax::{FileId, Finding, RuleId, Severity, Span};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// Nobody reads on past so many of a kind, and a file that is no pen would fill the memory.
const MOST: usize = 1_000;

/// The findings of each rule in each file, as far as they were let through.
#[derive(Default)]
pub(super) struct FindingQuota(BTreeMap<(FileId, RuleId), BTreeMap<Span, Passed>>);

/// What is known of a place.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Passed {
    Told,
    /// The first past the most.
    LeftOut,
}

impl FindingQuota {
    /// Whether a rule's finding at a place is let through: its file has not had too many of the rule, or
    /// has it already.
    pub(super) fn lets_through(&mut self, rule: RuleId, at: Span) -> bool {
        let of_rule = self.0.entry((at.file, rule));
        let places = of_rule.or_default();
        let full = places.len() >= MOST;
        match places.entry(at) {
            Entry::Occupied(known) => *known.get() == Passed::Told,
            Entry::Vacant(new) => {
                if !full {
                    new.insert(Passed::Told);
                } else if places.len() == MOST {
                    places.insert(at, Passed::LeftOut);
                }
                !full
            }
        }
    }

    /// What is said of those that were left out, where the others of their kind are still there.
    pub(super) fn of_the_rest(&self, told: &[Finding]) -> Vec<Finding> {
        let left_out = |((file, rule), places): (&(FileId, RuleId), &BTreeMap<Span, Passed>)| {
            let first = places.iter().find(|(_, it)| **it == Passed::LeftOut)?;
            let stands = |it: &Finding| it.rule == *rule && it.span.file == *file;
            let worst: Severity = told
                .iter()
                .filter(|it| stands(it))
                .map(|it| it.severity)
                .max()?;
            let message =
                format!("the first {MOST} of these are told of; from here on they are not");
            let finding = Finding::new(*rule, worst, *first.0, message);
            Some(finding.hint("put those before it right first"))
        };
        self.0.iter().filter_map(left_out).collect()
    }
}
