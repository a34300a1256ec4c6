//! `too-close-to-call`: a clearance that the worst case eats.

use crate::{Findings, JointView, Rule, Run, chain, remaining, spots, words};
use quillet_geometry::Length;
use quillet_model::{AtRest, Clearance, ClearanceKind, HeldBy, StoppedBy};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "too-close-to-call",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("too-close-to-call.md"),
    run: Run::Joint(run),
};

/// Below this, mm, a size is what it is drawn as.
const NOTHING: f64 = 1e-6;
/// More interference than this a lathe can tell from none; common practice, no published source.
const TOO_CLOSE: Length = Length::from_nm(10_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    let (pen, joint) = (view.pen.pen, view.joint);
    let settled = !rest.redundant && rest.stopped_by != StoppedBy::Nothing;
    if !settled || joint.verb == Verb::Post || !rest.verdict.is_sure() {
        return;
    }
    if let Some(finding) = tight_cap(view, rest) {
        findings.push(finding);
    }
    let fitted = !matches!(joint.verb, Verb::Screw | Verb::Close);
    let counts = |it: &&Clearance| {
        let own = it.male.part == joint.male.part && it.female.part == joint.female.part;
        let both_bought =
            pen.parts[it.male.part].is_bought() && pen.parts[it.female.part].is_bought();
        let asked = own && fitted && it.kind == ClearanceKind::RadialClearance;
        // A nib near the end of a cap has a rule of its own.
        let nib = joint.verb == Verb::Close
            && it.kind == ClearanceKind::Ahead
            && (pen.parts[it.male.part].is_bought() || pen.parts[it.female.part].is_bought());
        // In a stand what lies round it holds it; what is ahead it must not reach.
        let stands = joint.verb == Verb::Rest && it.kind != ClearanceKind::Ahead;
        it.kind != ClearanceKind::Corner && !asked && !nib && !both_bought && !stands
    };
    for it in rest.clearances.iter().filter(counts) {
        if it.nominal_mm <= NOTHING || it.least_mm >= -NOTHING {
            continue;
        }
        let (way, more) = match it.kind {
            ClearanceKind::RadialClearance => ("a side", "leave more between them"),
            _ => ("along the axis", "leave more room ahead"),
        };
        let message = text!(
            "{} {} is left between {} and {}; at worst they meet {} early, the sum of {}",
            Size::Rounded(Length::mm(it.nominal_mm), 2),
            way,
            spots::words(pen, &it.male),
            spots::words(pen, &it.female),
            Size::Rounded(Length::mm(-it.least_mm), 2),
            chain::words(pen, &it.chain),
        );
        let finding = RULE
            .at(joint.head, message)
            .label(spots::span(pen, &it.female), "one side of it")
            .label(spots::span(pen, &it.male), "the other side")
            .hint(more);
        findings.push(remaining::told(view, &it.chain, -it.least_mm, finding));
    }
}

/// A plain cap that only its own sizes hold: a hundredth of a millimetre is nothing or a great deal.
fn tight_cap(view: &JointView<'_>, rest: &AtRest) -> Option<Finding> {
    let [HeldBy::Interference { size, asked: false }] = *rest.verdict.held_by else {
        return None;
    };
    let plain = view.joint.verb == Verb::Close && size <= TOO_CLOSE;
    let message = text!(
        "{} of interference is all that holds {} on {}: no lathe keeps to that",
        size,
        view.pen.pen.parts[view.joint.first().part].name.text,
        view.pen.pen.parts[view.joint.second().part].name.text
    );
    plain.then(|| {
        RULE.at(view.joint.head, message).hint(text!(
            "leave {} a side, and let an O-ring, fingers, magnets or a thread hold it",
            words::ROOM_A_SIDE
        ))
    })
}
