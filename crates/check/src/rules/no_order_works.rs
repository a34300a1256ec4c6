//! `no-order-works`: no order of operations gets to a cut.

use crate::{Findings, PartView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_plan::{MOST_CUTS, PlanProblem, Unschedulable};
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-order-works",
    severity: Severity::Error,
    limit: None,
    page: include_str!("no-order-works.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoOrder { feature, why } = problem else {
            continue;
        };
        let cut = feature.and_then(|index| view.part.features.get(index));
        let what = cut.map_or_else(|| "outside".into(), words::sized);
        let (message, hint) = match why {
            // Told with its place by `die-wont-pass`.
            Unschedulable::DieBlocked { .. } => continue,
            Unschedulable::MouthTooNarrow { wanted, mouth } => (
                text!(
                    "the tool for the {} must pass {}; the mouth before it is {}",
                    what,
                    words::dia(*wanted),
                    words::dia(*mouth)
                ),
                "open the mouth, or cut it from the other end".into(),
            ),
            Unschedulable::NoWayIn => (
                text!("no hole leads to the {}", what),
                "drill or bore to it first".into(),
            ),
            Unschedulable::NothingToHold { end } => (
                text!(
                    "nothing is left to hold {} by while the {} is cut at its {}",
                    view.part.name.text,
                    what,
                    view.part.end_name(*end)
                ),
                text!(
                    "give an end a thread or a plain bore of {} or more to mount it by, or cut it from the other end",
                    Length::mm(4.0)
                ),
            ),
            Unschedulable::Circle => (
                text!("the {} waits for a cut that waits for it", what),
                "cut one of them from the other end".into(),
            ),
            Unschedulable::TooMany { count } => (
                text!(
                    "{} has {} holes and threads; a route is worked out among {} at most",
                    view.part.name.text,
                    count.to_string(),
                    MOST_CUTS.to_string()
                ),
                "write fewer cuts".into(),
            ),
        };
        let span = cut.map_or(view.part.name.span, |cut| cut.span);
        findings.push(RULE.at(span, message).hint(hint));
    }
}
