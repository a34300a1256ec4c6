//! `slender-mandrel`: the mandrel is too slender.

use super::mandrels;
use crate::{Findings, PartView, Rule, Run, words};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "slender-mandrel",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("slender-mandrel.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    mandrels::report(&RULE, view, findings, |problem| {
        let PlanProblem::SlenderMandrel {
            end, length, dia, ..
        } = *problem
        else {
            return None;
        };
        let (name, end, dia) = (&part.name.text, part.end_name(end), words::dia(dia));
        Some((
            text!(
                "the mandrel for the {} of {} stands {} out at {}",
                end,
                name,
                length,
                dia
            ),
            "keep the tail centre up and take light cuts, or hold it by its other end",
        ))
    });
}
