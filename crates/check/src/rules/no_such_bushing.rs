//! `no-such-bushing`: a tenon has no bushing where tenons are cut with bushings.

use crate::{Findings, PartView, Rule, Run, words};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-bushing",
    severity: Severity::Note,
    limit: None,
    page: include_str!("no-such-bushing.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoBushing {
            feature,
            wanted,
            nearest,
        } = *problem
        else {
            continue;
        };
        let Some(cut) = view.part.features.get(feature) else {
            continue;
        };
        let finding = RULE
            .at(
                cut.size_span,
                text!(
                    "no bushing of {} is on the bench; the tenon is turned to calipers",
                    words::dia(wanted)
                ),
            )
            .hint(match nearest {
                Some(near) => text!("the nearest bushing is {}", Size::Written(near)),
                None => "no bushing is on the bench".into(),
            });
        let (from, to) = cut.stations(view.part.length);
        findings.push_at(finding, from, to);
    }
}
