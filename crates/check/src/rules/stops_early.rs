//! `stops-early`: a joint that does not close.

use super::deeper;
use super::wont_pass::on_thread;
use crate::{Findings, JointView, PenView, Rule, Run, spots, words};
use quillet_geometry::Length;
use quillet_model::{AtRest, Joint, Part, StoppedBy, TOUCHING_MM, Touch};
use quillet_syntax::Severity;
use quillet_syntax::ast::Verb;
use std::sync::Arc;

pub(crate) static RULE: Rule = Rule {
    code: "stops-early",
    severity: Severity::Error,
    limit: None,
    page: include_str!("stops-early.md"),
    run: Run::Joint(run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|rest| !rest.redundant) else {
        return;
    };
    let told = super::wont_pass::blocked(view, rest).is_some()
        || super::nib_strikes_cap::struck(view, rest);
    // Where its own two parts meet, it matters little what else they hold.
    let own = |it: &Touch| {
        it.male.part == view.joint.male.part && it.female.part == view.joint.female.part
    };
    if told || !rest.touches.first().is_some_and(own) && upset(view, rest) {
        return;
    }
    let (pen, head) = (view.pen.pen, view.joint.head);
    let Some(short) = short_mm(view, rest) else {
        if let Some(touch) = jammed(view, rest) {
            findings.push(jams(view, touch));
        }
        return;
    };
    let amount = words::against(Length::mm(short.abs()), Length::ZERO);
    let Some(touch) = rest.touches.first() else {
        if let Some(seat) = &view.joint.seat {
            let message = format!(
                "{} and {} end {amount} apart, and nothing holds them there",
                named(view, &seat.first),
                named(view, &seat.second),
            );
            findings.push(RULE.at(head, message).label(seat.span, "to touch here"));
        }
        return;
    };
    let meets = format!(
        "{} meets {}",
        spots::words(pen, &touch.male),
        spots::words(pen, &touch.female)
    );
    let message = match &view.joint.seat {
        Some(seat) if short < 0.0 => format!(
            "{} goes {amount} past {}; {meets}",
            named(view, &seat.first),
            named(view, &seat.second),
        ),
        Some(seat) => format!(
            "{} stops {amount} short of {}: {meets}",
            named(view, &seat.first),
            named(view, &seat.second),
        ),
        None => format!(
            "{} stops {amount} short of where it would sit in {}: {meets}",
            view.male_name(),
            view.female_name(),
        ),
    };
    let mut finding = RULE
        .at(head, message)
        .label(spots::span(pen, &touch.female), "what it meets")
        .label(spots::span(pen, &touch.male), "what meets it");
    if let Some(seat) = &view.joint.seat {
        finding = finding.label(seat.span, "to touch here");
    }
    findings.push(cure(view, touch, short, finding));
}

/// Whether a joint does not close, whichever rule says so: what its parts would come to from there
/// on is not worth telling.
pub(super) fn stopped(view: &JointView<'_>, rest: &AtRest) -> bool {
    super::wont_pass::blocked(view, rest).is_some()
        || super::nib_strikes_cap::struck(view, rest)
        || short_mm(view, rest).is_some()
        || jammed(view, rest).is_some()
}

/// Whether a joint made before this one does not close, or a part it holds could not be read: all that it holds then lies elsewhere than
/// it will, and what it runs into says nothing.
pub(super) fn upset(view: &JointView<'_>, rest: &AtRest) -> bool {
    let with = |part: usize| {
        let mut members = rest.males.iter().chain(&rest.females);
        members.any(|(member, _)| *member == part)
    };
    let before = |it: &JointView<'_>| {
        it.index != view.index
            && !matches!(it.joint.verb, Verb::Close | Verb::Post)
            && with(it.joint.male.part)
            && with(it.joint.female.part)
    };
    let stops = |it: JointView<'_>| it.at_rest().is_some_and(|rest| stopped(&it, rest));
    let parts = view.pen.pen.parts.iter().enumerate();
    let read = |(index, part): (usize, &Arc<Part>)| part.whole || !with(index);
    !parts.into_iter().all(read) || view.pen.joints().filter(before).any(stops)
}

/// The joints of a part that do not close.
pub(super) fn open<'v>(view: &'v PenView<'_>, part: usize) -> impl Iterator<Item = &'v Joint> {
    let own = move |it: &JointView<'_>| [it.joint.male.part, it.joint.female.part].contains(&part);
    let joints = view.joints().filter(own);
    let stops = |it: &JointView<'_>| it.at_rest().is_some_and(|rest| stopped(it, rest));
    joints.filter(stops).map(|it| it.joint)
}

/// How far short of its seat a joint stops, or, where none is said, of where its two parts would
/// come by themselves; none where it closes.
fn short_mm(view: &JointView<'_>, rest: &AtRest) -> Option<f64> {
    if matches!(view.joint.verb, Verb::Post) || rest.stopped_by == StoppedBy::Nothing {
        return None;
    }
    let short = rest.seat_gap_mm.unwrap_or(rest.short_mm);
    (short.abs() > TOUCHING_MM).then_some(short)
}

/// Where a threaded joint comes to rest on its threads instead of on a face: a land that runs onto
/// crests, or crests that meet a bore without thread.
fn jammed<'r>(view: &JointView<'_>, rest: &'r AtRest) -> Option<&'r Touch> {
    if !matches!(view.joint.verb, Verb::Screw | Verb::Close)
        || rest.stopped_by != StoppedBy::Contact
    {
        return None;
    }
    let (male, female) = (view.male, view.female);
    let on = |touch: &Touch| {
        rest.engagements.iter().map(|it| it.threads).any(|threads| {
            on_thread(male, threads.male, &touch.male, touch.width_mm)
                || on_thread(female, threads.female, &touch.female, touch.width_mm)
        })
    };
    let first = rest.touches.first()?;
    rest.touches.iter().all(on).then_some(first)
}

fn jams(view: &JointView<'_>, touch: &Touch) -> quillet_syntax::Finding {
    let pen = view.pen.pen;
    let message = format!(
        "{} jams in {}: {} meets {} before any shoulder meets a face",
        view.male_name(),
        view.female_name(),
        spots::words(pen, &touch.male),
        spots::words(pen, &touch.female),
    );
    RULE.at(view.joint.head, message)
        .label(spots::span(pen, &touch.female), "what it meets")
        .label(spots::span(pen, &touch.male), "what meets it")
        .hint("cut a relief behind the outside thread, or carry the inside one further")
}

/// A hole that is too shallow is cured by its depth.
fn cure(
    view: &JointView<'_>,
    touch: &Touch,
    short: f64,
    finding: quillet_syntax::Finding,
) -> quillet_syntax::Finding {
    match deeper::deeper(view, &touch.female, short + deeper::ROOM_MM) {
        Some((title, edit)) => finding.hint(title.clone()).fix_all(title, vec![edit]),
        None if short < 0.0 => finding.hint("make the seat fatter than the hole it is to stop at"),
        None => finding.hint("make room for what meets there, or shorten what goes in"),
    }
}

fn named(view: &JointView<'_>, face: &quillet_model::PenFace) -> String {
    let part = &view.pen.pen.parts[face.part];
    format!("{}.{}", part.name.text, face.face.text)
}
