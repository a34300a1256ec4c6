//! `nib-strikes-cap`: too little room between the nib and the end of the cap.

use crate::{Findings, JointView, Rule, Run, Threshold, chain, propose, remaining, spots, words};
use quillet_geometry::Length;
use quillet_model::{AtRest, Clearance, ClearanceKind, Closing, PartId, Pen, SurfacePoint, Touch};
use quillet_syntax::ast::{ToleranceKind, Verb};
use quillet_syntax::{Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "nib-strikes-cap",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("nib-strikes-cap.md"),
    run: Run::Joint(run),
};

/// What is to be left at worst; common practice, no published source.
const LEFT: Length = Length::from_nm(500_000);

/// Less than this is nothing, mm.
const NOTHING_MM: f64 = 1e-6;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    if view.joint.verb != Verb::Close || rest.verdict.upset {
        return;
    }
    let pen = view.pen.pen;
    let Some(nib) = pen.assembly.nib else { return };
    let left = view.length_limit(&RULE, LEFT);
    if let Closing::Struck(touch) = &rest.verdict.closing {
        findings.push(struck(view, rest, touch, (nib, left)));
        return;
    }
    let ahead = |it: &&Clearance| {
        it.kind == ClearanceKind::Ahead && [it.male.part, it.female.part].contains(&nib)
    };
    let ahead = rest.clearances.iter().filter(ahead);
    let Some(gap) = ahead.min_by(|a, b| a.least_mm.total_cmp(&b.least_mm)) else {
        return;
    };
    if Length::mm(gap.least_mm) < left {
        findings.push(near(view, rest, gap, left));
    }
}

/// The nib touches the cap before it is closed.
fn struck(
    view: &JointView<'_>,
    rest: &AtRest,
    touch: &Touch,
    (nib, left): (PartId, Length),
) -> Finding {
    let pen = view.pen.pen;
    // A cap that has gone past its seat has only where it would come by itself before it.
    let past = rest.seat_gap_mm.filter(|gap| *gap < 0.0);
    let short = rest.seat_gap_mm.unwrap_or(rest.short_mm);
    let short = past.map_or(short, |_| rest.short_mm);
    let strikes = text!(
        "{} strikes {}",
        spots::words(pen, &touch.male),
        spots::words(pen, &touch.female)
    );
    let message = match past {
        Some(gap) => strikes.then(text!(
            " when the cap has gone {} past its seat",
            words::against(Length::mm(-gap), Length::ZERO)
        )),
        None if short <= NOTHING_MM => strikes.then(text!(" just as the cap closes")),
        None => strikes.then(text!(
            ", {} before the cap is closed",
            words::against(Length::mm(short), Length::ZERO)
        )),
    };
    let finding = Finding {
        severity: Severity::Error,
        ..RULE.at(view.joint.head, message)
    };
    let ends = (&touch.male, &touch.female);
    let by = short + left.to_mm() + taken_mm(pen, nib, ends.1);
    with_cures(view, ends, by, finding)
}

/// The nib may come nearer to the cap than is to be left.
fn near(view: &JointView<'_>, rest: &AtRest, gap: &Clearance, left: Length) -> Finding {
    let pen = view.pen.pen;
    let least = Length::mm(gap.least_mm);
    let corner = rest
        .clearances
        .iter()
        .find(|it| it.kind == ClearanceKind::Corner);
    let mm = |mm: f64| Size::Rounded(Length::mm(mm), 2);
    let corner = corner.map_or(SizedText::default(), |it| match it.nominal_mm {
        past if past < 0.0 => text!(", {} past the corner", mm(-past)),
        to => text!(", {} to the corner", mm(to)),
    });
    let at_worst = match least.is_negative() {
        true => text!("they meet {} early", mm(-gap.least_mm)),
        false => words::against(least, left),
    };
    let message = text!(
        "{} is left between {} and {}{}; at worst, {}, {} wanted; the sum of {}",
        mm(gap.nominal_mm),
        spots::words(pen, &gap.male),
        spots::words(pen, &gap.female),
        corner,
        at_worst,
        left,
        chain::words(pen, &gap.chain),
    );
    let severity = if least.is_negative() {
        Severity::Error
    } else {
        Severity::Warning
    };
    let finding = Finding {
        severity,
        ..RULE.at(view.joint.head, message)
    };
    let by = (left - least).to_mm();
    let finding = with_cures(view, (&gap.male, &gap.female), by, finding);
    remaining::told(view, &gap.chain, by, finding)
}

/// What a chain from a nib to the end of a cap takes where none can be told yet, since the nib is
/// itself what stops the cap: the nib, the depth, a bore's depth and two shoulders.
fn taken_mm(pen: &Pen, nib: PartId, end: &SurfacePoint) -> f64 {
    let keeps = |part: PartId, kept, mm: f64| {
        let hand = pen.hands.get(part).copied().unwrap_or_default();
        hand.keeps(kept, Length::mm(mm)).to_mm()
    };
    let depth = keeps(end.part, ToleranceKind::Depth, end.station_mm);
    let small =
        keeps(nib, ToleranceKind::Depth, 1.0) + 2.0 * keeps(nib, ToleranceKind::Shoulder, 30.0);
    keeps(nib, ToleranceKind::Nib, 0.0) + depth + small
}

fn with_cures(
    view: &JointView<'_>,
    ends: (&SurfacePoint, &SurfacePoint),
    by_mm: f64,
    finding: Finding,
) -> Finding {
    let pen = view.pen.pen;
    let finding = finding
        .label(spots::span(pen, ends.1), "the end of the cap's bore")
        .label(spots::span(pen, ends.0), "what comes near it");
    let finding = finding.hint("make the cap's bore deeper, or let the nib stand out less");
    let by = Length::mm(by_mm);
    let deeper = [ends.1, ends.0]
        .into_iter()
        .filter_map(|end| propose::deeper(view, end, by));
    propose::with(finding, deeper)
}
