//! `slender-mandrel`: the mandrel is too slender.

use crate::{Findings, PartView, Rule, Run, words};
use quillet_plan::Trouble;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "slender-mandrel",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("slender-mandrel.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for trouble in view.troubles() {
        let Trouble::SlenderMandrel {
            end, length, dia, ..
        } = *trouble
        else {
            continue;
        };
        let end = view.part.end_name(end);
        findings.push(
            RULE.at(
                view.part.name.span,
                format!(
                    "the mandrel for the {end} of {} stands {length} out at {}",
                    view.part.name.text,
                    words::dia(dia)
                ),
            )
            .hint("keep the tail centre up and take light cuts, or hold it by its other end"),
        );
    }
}
