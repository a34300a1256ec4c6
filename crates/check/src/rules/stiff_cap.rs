//! `stiff-cap`: a cap that takes a jerk to draw.

use crate::{Findings, JointView, Rule, Run, Threshold, words};
use quillet_geometry::Length;
use quillet_model::HeldBy;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, SizedText, text};

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
    // A tenth is told of a light hold, as of every estimate of one.
    let [hold, most] = words::told_apart(hold, most, usize::from(hold < 20.0));
    let most = most.strip_suffix(".0").unwrap_or(&most);
    let message = text!(
        "the cap takes about {} N to draw, an estimate good to a factor of two; {} N at most is \
         wanted: a jerk throws ink",
        hold,
        most
    );
    let hint = rest.verdict.held_by.iter().find_map(eased);
    let hint = hint.unwrap_or_else(|| "let less hold it".into());
    findings.push(RULE.at(view.joint.head, message).hint(hint));
}

/// What makes it hold less; none where that is not to be said in a line.
fn eased(held_by: &HeldBy) -> Option<SizedText> {
    Some(match held_by {
        HeldBy::Ring { .. } => {
            "squeeze the O-ring less, by a deeper groove or a wider bore, or take a thinner cord"
                .into()
        }
        HeldBy::Snap(it) if it.fingers.is_none() => {
            "slit the ring into fingers by slots from its end, as: slot 1 at 0..9.5 indexed 6"
                .into()
        }
        HeldBy::Snap(_) => {
            "let the ridge overlap less, or make the fingers longer or thinner".into()
        }
        HeldBy::Interference { .. } => text!(
            "leave {} a side, and let an O-ring, fingers, magnets or a thread hold it",
            words::ROOM_A_SIDE
        ),
        HeldBy::Magnets(_) => "set the magnets deeper, so that they lie further apart".into(),
        _ => return None,
    })
}
