//! `weak-hold`: a cap or a pressed part that comes off too easily.

use crate::{Findings, JointView, Rule, Run, Threshold, words};
use quillet_model::{HeldBy, Weights};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "weak-hold",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("weak-hold.md"),
    run: Run::Joint(run),
};

/// What a cap should hold, in newtons, and of how many times its weight; and what a pressed part
/// should: common practice, no published source.
const CAP_N: f64 = 2.0;
const WEIGHTS: f64 = 20.0;
const PRESS_N: f64 = 50.0;
/// Standard gravity, newtons a gram (exact by definition).
const N_PER_G: f64 = 9.806_65e-3;

/// What would hold a cap better.
fn cap_hint(held: &[HeldBy]) -> &'static str {
    let of = held.iter().find_map(|it| match it {
        HeldBy::Snap(_) => {
            Some("let the ridge overlap more, or make what springs thicker or shorter")
        }
        HeldBy::Magnets(_) => {
            Some("let the magnets lie nearer to each other, or take stronger ones; or cut a thread")
        }
        _ => None,
    });
    of.unwrap_or(
        "squeeze the O-ring more, by a shallower groove or a narrower bore; or cut a thread",
    )
}

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|rest| !rest.redundant) else {
        return;
    };
    let Some(hold) = view.pen.pen.hold_n(view.id) else {
        return;
    };
    let weights: &Weights = &view.pen.pen.assembly.weights;
    let (least, hint) = match view.joint.verb {
        Verb::Close => {
            let cap = view.joint.first().part;
            let weighs = weights.get(cap).copied().flatten();
            let weighs = weighs.map_or(0.0, |it| it.mass_g * N_PER_G);
            (CAP_N.max(WEIGHTS * weighs), cap_hint(&rest.verdict.held_by))
        }
        Verb::Press => (
            PRESS_N,
            "press it over a longer way or with more interference; or glue it",
        ),
        _ => return,
    };
    let least = view.number_limit(&RULE, least);
    if !rest.verdict.is_sure() || hold >= least {
        return;
    }
    let name = match view.joint.verb {
        Verb::Close => &view.pen.pen.parts[view.joint.first().part].name.text,
        _ => &view.male.name.text,
    };
    let [hold, least] = words::told_apart(hold, least, 1);
    let message = text!(
        "{} comes off at about {} N, an estimate good to a factor of two; {} N is wanted",
        name,
        hold,
        least
    );
    findings.push(RULE.at(view.joint.head, message).hint(hint));
}
