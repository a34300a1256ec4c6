//! `no-such-die`: an outside thread asks for a die that is not on the bench.

use crate::{Findings, PartView, Rule, Run, threading};
use quillet_plan::PlanProblem;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "no-such-die",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-die.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let there = view.bench.map_or(&[][..], |bench| &bench.dies);
    for problem in view.problems() {
        if let PlanProblem::NoDie { feature, thread } = problem {
            threading::missing(&RULE, view, *feature, thread, ("die", there), findings);
        }
    }
}
