//! `no-such-tap`: an inside thread asks for a tap that is not on the bench.

use crate::{Findings, PartView, Rule, Run, threading};
use quillet_plan::PlanProblem;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "no-such-tap",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-tap.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let there = view.bench.map_or(&[][..], |bench| &bench.taps);
    for problem in view.problems() {
        if let PlanProblem::NoTap { feature, thread } = problem {
            threading::missing(&RULE, view, *feature, thread, ("tap", there), findings);
        }
    }
}
