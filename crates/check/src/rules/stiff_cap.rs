//! `stiff-cap`: a cap that takes a jerk to draw.

use crate::held::newtons;
use crate::{Findings, JointView, Rule, Run, Threshold};
use quillet_geometry::Length;
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
/// Up to so much interference no lathe keeps to its size; common practice, no published source.
const TOO_CLOSE: Length = Length::from_nm(10_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|_| view.joint.verb == Verb::Close) else {
        return;
    };
    // Sizes that agree to a hundredth are too close to call, and told as such.
    let close = |it: &HeldBy| matches!(it, HeldBy::Interference { size, .. } if *size <= TOO_CLOSE);
    if !rest.verdict.is_sure() || rest.verdict.held_by.iter().any(close) {
        return;
    }
    let most = view.number_limit(&RULE, CAP_N);
    let Some(hold) = view.pen.pen.new_hold_n(view.id).filter(|it| *it > most) else {
        return;
    };
    let message = text!(
        "the cap takes about {} N to draw, an estimate good to a factor of two; {} N at most is \
         wanted: a jerk throws ink",
        newtons(hold),
        format!("{most:.0}")
    );
    let hint = rest.verdict.held_by.iter().find_map(|it| match it {
        HeldBy::Ring { .. } => Some(
            "squeeze the O-ring less, by a deeper groove or a wider bore, or take a thinner cord",
        ),
        HeldBy::Snap(it) if it.fingers.is_none() => {
            Some("slit the ring into fingers by slots from its end, as: slot 1 at 0..9.5 indexed 6")
        }
        HeldBy::Snap(_) => {
            Some("let the ridge overlap less, or make the fingers longer or thinner")
        }
        HeldBy::Interference { .. } => {
            Some("leave 0.1 mm a side, and let an O-ring, fingers, magnets or a thread hold it")
        }
        HeldBy::Magnets(_) => Some("set the magnets deeper, so that they lie further apart"),
        _ => None,
    });
    let hint = hint.unwrap_or("let less hold it");
    findings.push(RULE.at(view.joint.head, message).hint(hint));
}
