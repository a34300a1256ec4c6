//! `no-such-index`: no stop of the spindle gives as many places round as a cut is made at.

use crate::{Findings, PartView, Rule, Run, words};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-index",
    severity: Severity::Note,
    limit: None,
    page: include_str!("no-such-index.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoIndex { cut, places } = *problem else {
            continue;
        };
        let Some(cut) = view.part.side(cut) else {
            continue;
        };
        let stops = view.bench.map_or(&[][..], |bench| &bench.index);
        let stops: Vec<String> = stops.iter().map(ToString::to_string).collect();
        let message = text!(
            "the {} is made at {} places round; the bench's spindle locks at {}, which {} does not divide",
            cut.called(),
            places,
            words::list(&stops),
            places
        );
        let hint = text!(
            "wrap a strip with {} even marks round the chuck and lock the spindle by that, or take a number that divides",
            places
        );
        let finding = RULE.at(cut.span, message).hint(hint);
        findings.push_at(finding, cut.stretch.from, cut.stretch.to);
    }
}
