//! `beyond-reach`: a hole goes deeper than the tool or the tailstock.

use crate::{Findings, PartView, Rule, Run, words};
use quillet_plan::{PlanProblem, Shortfall};
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "beyond-reach",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("beyond-reach.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::BeyondReach {
            feature,
            needed,
            reach,
            short,
        } = *problem
        else {
            continue;
        };
        let Some(cut) = view.part.features.get(feature) else {
            continue;
        };
        let (what, hint) = match short {
            Shortfall::Drill => (
                "the drill goes",
                "use a long-series drill and say its reach on the bench, or drill less deep",
            ),
            Shortfall::Bar => (
                "the boring bar goes",
                "use a longer bar or a drill of the size, or bore less deep",
            ),
            Shortfall::Travel => (
                "the tailstock travels",
                "move the tailstock up once and set its scale to nought again",
            ),
        };
        let mut finding = RULE
            .at(
                cut.reach_span,
                text!(
                    "the hole goes {} deep, its point counted; {} {}",
                    words::against(needed, reach),
                    what,
                    words::against(reach, needed)
                ),
            )
            .hint(hint);
        if short == Shortfall::Travel {
            finding.severity = Severity::Note;
        }
        let (from, to) = cut.stations(view.part.length);
        findings.push_at(finding, from, to);
    }
}
