//! `dry-nib`: a closed pen whose nib is not sealed.

use crate::{Findings, PenView, Rule, Run};
use quillet_model::Vent;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Span, text};

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
    let ml = format!("{:.1}", air.volume_mm3 / 1000.0);
    if let Some(vent) = air.vent {
        findings.push(vented(view, cap.joint.head, vent, &ml));
    }
    if air.is_vented() {
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
    let message = text!("{}, so the {} ml of air round the nib is open", why, ml);
    findings.push(RULE.at(cap.joint.head, message).hint(hint));
}

/// What is cut open from its side: through a slot that something sits in, air passes as that is bedded.
fn vented(view: &PenView<'_>, at: Span, vent: Vent, ml: &str) -> Finding {
    let part = &view.pen.parts[vent.part];
    let cut = part.side(vent.cut);
    let taken = cut.and_then(|it| Some((it, it.around.takes.as_ref()?)));
    let Some((cut, taken)) = taken else {
        let message = text!(
            "{} is cut open from its side, so the {} ml of air round the nib is open",
            part.name.text,
            ml
        );
        let hint = "cut the opening before the seal, or let an inner cap seal round the nib";
        return RULE.at(at, message).hint(hint);
    };
    let message = text!(
        "the {} for {} opens {}: the {} ml of air round the nib is shut in only as well as {} is bedded",
        cut.called(),
        taken.text,
        part.name.text,
        ml,
        taken.text
    );
    let hint = text!(
        "bed {} in glue or wax all round, or give the {} a depth that leaves a wall",
        taken.text,
        cut.called()
    );
    let finding = RULE.at(cut.span, message).label(at, "what it closes");
    Finding {
        severity: Severity::Note,
        ..finding
    }
    .hint(hint)
}

/// Whether an O-ring seals the cap.
fn ringed(view: &PenView<'_>) -> bool {
    let seals = view.pen.assembly.rings.iter();
    seals.filter_map(|ring| ring.seal).any(|seal| {
        let joint = view.pen.joints.get(seal.joint);
        joint.is_some_and(|joint| joint.verb == Verb::Close) && seal.squeeze > 0.0
    })
}
