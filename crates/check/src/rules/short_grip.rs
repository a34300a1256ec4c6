//! `short-grip`: the part is held by too little.

use super::mandrels;
use crate::{Findings, PartView, Rule, Run};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "short-grip",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("short-grip.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    mandrels::report(&RULE, view, findings, |problem| {
        let PlanProblem::ShortGrip {
            end,
            length,
            wanted,
        } = *problem
        else {
            return None;
        };
        let (name, end) = (&part.name.text, part.end_name(end));
        Some((
            text!(
                "{} to hold {} by at its {}; {} is wanted",
                length,
                name,
                end,
                wanted
            ),
            "lengthen what holds it, or leave stock to grip and part it off last",
        ))
    });
}
