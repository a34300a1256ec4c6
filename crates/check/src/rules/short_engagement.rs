//! `short-engagement`: too little thread in the other to hold.

use crate::complete::complete;
use crate::{Findings, JointView, Rule, Run, Threshold};
use quillet_model::{Closing, StoppedBy};
use quillet_syntax::Severity;
use quillet_syntax::ast::Verb;

pub(crate) static RULE: Rule = Rule {
    code: "short-engagement",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("short-engagement.md"),
    run: Run::Joint(run),
};

/// Pitches of overlap that a cap wants, and a joint that stays closed; common practice, no
/// published source. The lengths of engagement of ISO 965 choose tolerances, not strength.
const CAP_PITCHES: f64 = 2.5;
const FIXED_PITCHES: f64 = 5.0;
/// A cap that lets go within less of a turn opens by itself.
const CAP_TURNS: f64 = 0.5;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    let Some(threads) = rest.engagements.first() else {
        return;
    };
    // A joint that does not close has more to mend first.
    let open = rest.short_mm > quillet_model::TOUCHING_MM
        || rest
            .seat_gap_mm
            .is_some_and(|gap| gap.abs() > quillet_model::TOUCHING_MM);
    let open = open || matches!(rest.verdict.closing, Closing::Blocked(_));
    if open || rest.stopped_by != StoppedBy::Contact {
        return;
    }
    let cap = view.joint.verb == Verb::Close;
    let wanted = view.number_limit(&RULE, if cap { CAP_PITCHES } else { FIXED_PITCHES });
    let full = complete(view, rest, threads);
    let pitches = full.overlap_mm / threads.form.pitch_mm();
    let few = cap && threads.turns() < CAP_TURNS - 1e-9;
    if pitches >= wanted - 1e-9 && !few {
        return;
    }
    let mut message = match (pitches <= 0.0, pitches < wanted - 1e-9) {
        (true, _) => format!(
            "the threads never reach each other: {:.2} mm are left between them",
            -full.overlap_mm
        ),
        (false, true) => format!(
            "{:.2} mm of thread lies in the other, {pitches:.1} pitches; {wanted} wanted",
            full.overlap_mm
        ),
        (false, false) => format!(
            "the cap lets go after {:.2} turns; {CAP_TURNS} wanted at least",
            threads.turns()
        ),
    };
    if let Some(lead) = full.lead_in.filter(|_| pitches < wanted - 1e-9) {
        message += &format!(
            " ({:.2} mm are drawn; a lead-in of {} takes {:.2} mm: {})",
            threads.overlap_mm, lead.length, full.lost_mm, lead.whose
        );
    }
    let (male, female) = (
        &view.male.features[threads.threads.male],
        &view.female.features[threads.threads.female],
    );
    findings.push(
        RULE.at(view.joint.head, message)
            .label(male.span, "the outside thread")
            .label(female.span, "the inside thread")
            .hint("make the threads longer, or let them begin nearer to the mouth"),
    );
}
