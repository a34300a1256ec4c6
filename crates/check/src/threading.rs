//! A tap or a die that is asked for and is not on the bench.

use crate::{Findings, PartView, Rule, words};
use quillet_model::{BenchThreading, CutId, ThreadDef};
use quillet_syntax::text;

/// Tells of a thread for which the bench has no `tool` ("tap", "die"); `there` are those it has.
pub(crate) fn missing(
    rule: &Rule,
    view: &PartView<'_>,
    feature: CutId,
    thread: &ThreadDef,
    (tool, there): (&str, &[BenchThreading]),
    findings: &mut Findings,
) {
    let Some(cut) = view.part.features.get(feature) else {
        return;
    };
    let names: Vec<String> = there
        .iter()
        .map(|it| it.thread.thread.to_string())
        .collect();
    let hint = match names.is_empty() {
        true => "buy or borrow it".into(),
        false => text!(
            "buy or borrow it, or use a thread there is a {} for: {}",
            tool,
            words::list(&names)
        ),
    };
    let message = text!(
        "no {} for {} is on the bench, and its lathe is not geared for threads",
        tool,
        thread.called()
    );
    let (from, to) = cut.stations(view.part.length);
    findings.push_at(rule.at(cut.size_span, message).hint(hint), from, to);
}
