//! The cures that findings bring with them.

use super::{Action, ActionKind, concerns};
use quillet_syntax::{Edit, Finding, Fix, RuleId, Span};
use std::collections::BTreeMap;

/// The cures of the findings within a span.
pub(super) fn fixes(findings: &[Finding], within: Span) -> Vec<Action> {
    let here = findings
        .iter()
        .enumerate()
        .filter(|(_, finding)| concerns(finding, within));
    let actions = here.flat_map(|(index, finding)| {
        let only = finding.fixes.len() == 1;
        finding.fixes.iter().map(move |fix| Action {
            title: fix.title.to_string(),
            kind: ActionKind::Fix,
            edits: fix.edits.clone(),
            cures: Some(index),
            preferred: only,
        })
    });
    actions.collect()
}

/// One action for each rule within a span that cures it everywhere in the file, and one for all
/// rules together.
pub(super) fn all(within: Span, findings: &[Finding]) -> Vec<Action> {
    let mut by_rule: BTreeMap<RuleId, Vec<&Fix>> = BTreeMap::new();
    for finding in findings
        .iter()
        .filter(|finding| finding.span.file == within.file)
    {
        // Where there is a choice, the maker makes it.
        if let [fix] = finding.fixes.as_slice() {
            by_rule.entry(finding.rule).or_default().push(fix);
        }
    }
    let is_here = |rule: RuleId| {
        findings
            .iter()
            .any(|it| it.rule == rule && concerns(it, within))
    };
    let mut actions = Vec::new();
    for (rule, fixes) in &by_rule {
        if fixes.len() > 1 && is_here(*rule) {
            actions.push(together(
                format!("fix all {} {rule} findings", fixes.len()),
                ActionKind::Fix,
                fixes,
            ));
        }
    }
    let every: Vec<&Fix> = by_rule.into_values().flatten().collect();
    if !every.is_empty() {
        actions.push(together(
            "fix all that say how".into(),
            ActionKind::FixAll,
            &every,
        ));
    }
    actions
}

/// Fixes applied together; one that would touch what another changes is left for later.
fn together(title: String, kind: ActionKind, fixes: &[&Fix]) -> Action {
    let mut edits: Vec<Edit> = Vec::new();
    for fix in fixes {
        let clashes = |edit: &Edit| edits.iter().any(|taken| overlap(taken.span, edit.span));
        if !fix.edits.iter().any(clashes) {
            edits.extend(fix.edits.iter().cloned());
        }
    }
    Action {
        title,
        kind,
        edits,
        cures: None,
        preferred: false,
    }
}

fn overlap(a: Span, b: Span) -> bool {
    a.file == b.file && a.start <= b.end && b.start <= a.end
}
