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
        Some((
            text!(
                "on its mandrel {} bears at the {} on a ring of {} a side; {} is wanted",
                part.name.text,
                part.end_name(end),
                ring,
                wanted
            ),
            "make the shoulder behind the thread fatter, or the thread finer",
        ))
    });
}
