//! `no-such-tap`: an inside thread asks for a tap that is not on the bench.

use crate::{Findings, PartView, Rule, Run, words};
use quillet_plan::Trouble;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "no-such-tap",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-tap.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for trouble in view.troubles() {
        let Trouble::NoTap { feature, thread } = trouble else {
            continue;
        };
        let Some(cut) = view.part.features.get(*feature) else {
            continue;
        };
        let finding = RULE
            .at(
                cut.size_span,
                format!(
                    "no tap for {} is on the bench, and its lathe is not geared for threads",
                    thread.called()
                ),
            )
            .hint(at_hand(view));
        let (from, to) = cut.stations(view.part.length);
        findings.push_at(finding, from, to);
    }
}

/// What to do, with the taps there are.
fn at_hand(view: &PartView<'_>) -> String {
    let tools = view
        .bench
        .map(|bench| bench.taps.as_slice())
        .unwrap_or_default();
    let names: Vec<String> = tools
        .iter()
        .map(|it| it.thread.thread.to_string())
        .collect();
    match names.is_empty() {
        true => "buy or borrow it".to_owned(),
        false => format!(
            "buy or borrow it, or use a thread there is a tap for: {}",
            words::list(&names)
        ),
    }
}
