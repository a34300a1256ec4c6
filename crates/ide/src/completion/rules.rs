//! The rules, for `accept` and `limit`.

use super::{About, Choice, ChoiceKind, Place};
use quillet_check::Rule;
use quillet_syntax::Severity;
use std::collections::BTreeSet;

/// Those with a threshold after `limit`, those that can be accepted after `accept`, what was
/// found in this item first.
pub(super) fn rules(at: Place<'_>) -> Vec<Choice> {
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
        found.contains(rule.code) || (rule.severity != Severity::Error && !is_of_the_text(rule))
    });
    let ranked = acceptable.map(|rule| match found.contains(rule.code) {
        true => choice(rule).ranked(0),
        false => choice(rule),
    });
    ranked.collect()
}

/// The rules of what is found in the item at the cursor, errors left out.
fn found_here(at: Place<'_>) -> BTreeSet<&'static str> {
    let cursor = at.cursor;
    let items = &cursor.file.parsed.tree.items;
    let Some(item) = items.iter().find(|item| item.span.touches(cursor.offset)) else {
        return BTreeSet::new();
    };
    let findings = cursor.analysis.findings(&|| false).unwrap_or_default();
    let here = findings
        .iter()
        .filter(|it| item.span.contains(it.span) && it.severity != Severity::Error);
    here.map(|it| it.rule)
        .filter(|rule| *rule != "stale-acceptance")
        .collect()
}

/// Whether it is about how the text is written, not about the pen.
fn is_of_the_text(rule: &Rule) -> bool {
    matches!(rule.code, "stale-acceptance" | "syntax")
}

fn choice(rule: &Rule) -> Choice {
    let about = About::Rule(rule.code.to_owned());
    Choice::plain(rule.code, ChoiceKind::Rule, rule.summary(), about)
}
