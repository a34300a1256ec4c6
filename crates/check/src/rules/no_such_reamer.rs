//! `no-such-reamer`: a reamed hole asks for a reamer that is not on the bench.

use crate::{Findings, PartView, Rule, Run, words};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-reamer",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-reamer.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoReamer { feature, wanted } = *problem else {
            continue;
        };
        let Some(cut) = view.part.features.get(feature) else {
            continue;
        };
        let finding = RULE
            .at(
                cut.size_span,
                text!(
                    "no reamer of {} is on the bench, nor a boring bar that reaches",
                    words::dia(wanted)
                ),
            )
            .hint("buy it, or drill the hole and loosen what goes into it");
        let (from, to) = cut.stations(view.part.length);
        findings.push_at(finding, from, to);
    }
}
