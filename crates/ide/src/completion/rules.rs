//! The rules, for `accept` and `limit`.

use super::{Choice, ChoiceKind, CompletionContext, DocumentationKey};
use quillet_check::{Rule, Run};
use quillet_syntax::Severity;
use std::collections::BTreeSet;

/// An acceptance that accepts nothing, which is not accepted in its turn.
const STALE: &str = quillet_syntax::RuleId::STALE_ACCEPTANCE.code();

/// Those with a threshold after `limit`, those that can be accepted after `accept`, what was
/// found in this item first.
pub(super) fn rules(at: CompletionContext<'_>) -> Vec<Choice> {
    let all = quillet_check::RULES.iter().copied();
    if at.verb() == Some("limit") {
        return all
            .filter(|rule| rule.limit.is_some())
            .map(choice)
            .collect();
    }
    let found = found_here(at);
    // What cannot be made cannot be accepted.
    let acceptable = all.filter(|rule| {
        let never = rule.severity == Severity::Error || rule.code == STALE;
        found.contains(rule.code) || !never
    });
    let ranked = acceptable.map(|rule| match rule.run {
        _ if found.contains(rule.code) => choice(rule).ranked(0),
        // What is found while reading is put right sooner than accepted.
        Run::Elsewhere => choice(rule).ranked(3),
        _ => choice(rule),
    });
    ranked.collect()
}

/// The rules of what is found in the item at the cursor, errors left out.
fn found_here(at: CompletionContext<'_>) -> BTreeSet<&'static str> {
    let Some(item) = at.item() else {
        return BTreeSet::new();
    };
    let findings = at.cursor.analysis.findings(&|| false).unwrap_or_default();
    let here = findings
        .iter()
        .filter(|it| item.span.contains(it.span) && it.severity != Severity::Error);
    here.map(|it| it.rule.code())
        .filter(|rule| *rule != STALE)
        .collect()
}

fn choice(rule: &Rule) -> Choice {
    let about = DocumentationKey::Rule(rule.code.to_owned());
    Choice::plain(rule.code, ChoiceKind::Rule, rule.summary(), about)
}
