//! `stiff-cap`: a cap that takes a jerk to draw.

use crate::{Findings, JointView, Rule, Run, Threshold};
use quillet_model::HeldBy;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "stiff-cap",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("stiff-cap.md"),
    run: Run::Joint(run),
};

/// More newtons than this take a jerk; common practice, no published source.
const CAP_N: f64 = 15.0;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|_| view.joint.verb == Verb::Close) else {
        return;
    };
    // Sizes that agree to a hundredth are too close to call, and told as such.
    let pressed = |it: &HeldBy| matches!(it, HeldBy::Interference { .. });
    if !rest.verdict.is_sure() || rest.verdict.held_by.iter().any(pressed) {
        return;
    }
    let most = view.number_limit(&RULE, CAP_N);
    let Some(hold) = view.pen.pen.hold_n(view.id).filter(|it| *it > most) else {
        return;
    };
    let message = text!(
        "the cap takes about {} N to draw, an estimate good to a factor of two; {} N at most is \
         wanted: a jerk throws ink",
        format!("{hold:.0}"),
        format!("{most:.0}")
    );
    findings.push(RULE.at(view.joint.head, message).hint(
        "squeeze the O-ring less, by a deeper groove or a wider bore, or take a thinner cord",
    ));
}
