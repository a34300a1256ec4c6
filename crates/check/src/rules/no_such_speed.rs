//! `no-such-speed`: the lathe cannot go slowly enough.

use crate::{Findings, PartView, Rule, Run};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-speed",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-speed.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let mut reported_outside = false;
    for problem in view.problems() {
        let PlanProblem::NoSpeed {
            feature,
            wanted_rev_min,
            lathe_rev_min,
            ..
        } = *problem
        else {
            continue;
        };
        let cut = feature.and_then(|index| view.part.features.get(index));
        // Facing, roughing, parting: one word for the outside is enough.
        if cut.is_none() && std::mem::replace(&mut reported_outside, true) {
            continue;
        }
        let span = cut.map_or(view.part.name.span, |cut| cut.span);
        let what = cut.map_or("outside", quillet_model::Feature::called);
        let finding = RULE
            .at(
                span,
                text!(
                    "the {} wants {} to {} rev/min; the lathe's slowest is {}",
                    what,
                    format!("{:.0}", wanted_rev_min.0),
                    format!("{:.0}", wanted_rev_min.1),
                    format!("{:.0}", lathe_rev_min.0)
                ),
            )
            .hint("cut it at another lathe, or by hand with the power off");
        match cut.map(|cut| cut.stations(view.part.length)) {
            Some((from, to)) => findings.push_at(finding, from, to),
            None => findings.push(finding),
        }
    }
}
