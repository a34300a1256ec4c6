//! `narrow-bearing`: the shoulder by which a part is held bears on next to nothing.

use super::mandrels;
use crate::{Findings, PartView, Rule, Run};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "narrow-bearing",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("narrow-bearing.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    mandrels::report(&RULE, view, findings, |problem| {
        let PlanProblem::NarrowBearing { end, ring, wanted } = *problem else {
            return None;
        };
        let (name, end) = (&part.name.text, part.end_name(end));
        let message = match ring.is_positive() {
            true => text!(
                "on its mandrel {} bears at the {} on a ring of {} a side; {} is wanted",
                name,
                end,
                ring,
                wanted
            ),
            false => text!(
                "on its mandrel {} has nothing to bear with at the {}: it is no fatter behind its \
                 thread than the thread; a ring of {} a side is wanted",
                name,
                end,
                wanted
            ),
        };
        let cure = "make the shoulder behind the thread fatter, or the thread finer";
        Some((message, cure))
    });
}
