//! `dry-nib`: a closed pen whose nib is not sealed.

use crate::{Findings, PenView, Rule, Run};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "dry-nib",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("dry-nib.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let cap = view.joints().find(|it| it.joint.verb == Verb::Close);
    let (Some(cap), Some(air)) = (cap, &view.pen.assembly.air) else {
        return;
    };
    // A cap that does not close is told of already.
    let sure = cap.at_rest().is_some_and(|rest| rest.verdict.is_sure());
    if !air.open_ended && air.vent.is_none() && !sure {
        return;
    }
    let ml = air.volume_mm3 / 1000.0;
    if let Some(part) = air.vent.and_then(|part| view.pen.parts.get(part)) {
        let message = text!(
            "{} is cut open from its side, so the {} ml of air round the nib is open",
            part.name.text,
            format!("{:.1}", ml)
        );
        let hint = "cut the opening before the seal, or let an inner cap seal round the nib";
        findings.push(RULE.at(cap.joint.head, message).hint(hint));
        return;
    }
    let (why, hint) = match (air.open_ended, air.seal.is_some() || ringed(view)) {
        (true, _) => (
            "the cap's bore goes right through",
            "close the crown: drill it blind, or add the finial that closes it",
        ),
        (false, false) => (
            "nothing of the cap touches the body all round",
            "let the cap's mouth, or an inner cap, come to rest on a shoulder",
        ),
        (false, true) => return,
    };
    let message = text!(
        "{}, so the {} ml of air round the nib is open",
        why,
        format!("{:.1}", ml)
    );
    findings.push(RULE.at(cap.joint.head, message).hint(hint));
}

/// Whether an O-ring seals the cap.
fn ringed(view: &PenView<'_>) -> bool {
    let seals = view.pen.assembly.rings.iter();
    seals.filter_map(|ring| ring.seal).any(|seal| {
        let joint = view.pen.joints.get(seal.joint);
        joint.is_some_and(|joint| joint.verb == Verb::Close) && seal.squeeze > 0.0
    })
}
