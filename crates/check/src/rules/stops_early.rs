//! `stops-early`: a joint that does not close.

use super::land::Land;
use super::pressed::Pressed;
use crate::{Findings, JointView, Rule, Run, propose, spots, words};
use quillet_geometry::Length;
use quillet_model::{AtRest, Closing, TOUCHING_MM, Touch};
use quillet_syntax::{Finding, Severity, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "stops-early",
    severity: Severity::Error,
    limit: None,
    page: include_str!("stops-early.md"),
    run: Run::Joint(run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    // Where its own two parts meet, it matters little what else they hold.
    let own = |it: &Touch| {
        it.male.part == view.joint.male.part && it.female.part == view.joint.female.part
    };
    if rest.verdict.upset && !rest.touches.first().is_some_and(own) {
        return;
    }
    if let Some(pressed) = Pressed::of(view, rest) {
        let finding = RULE.at(view.joint.head, pressed.words());
        let finding = finding.label(pressed.stated_at(), "its least length and its free one");
        findings.push(finding.hint("leave it more room, or take a shorter spring"));
        return;
    }
    match &rest.verdict.closing {
        Closing::Short { by_mm, touch } => {
            findings.push(short(view, rest, *by_mm, touch.as_ref()));
        }
        Closing::Jammed(touch) => findings.push(jams(view, rest, touch)),
        // What is too fat, and a nib that strikes, have rules of their own.
        Closing::Closes | Closing::Blocked(_) | Closing::Struck(_) => {}
    }
}

fn short(view: &JointView<'_>, rest: &AtRest, short: f64, touch: Option<&Touch>) -> Finding {
    let (pen, head) = (view.pen.pen, view.joint.head);
    let amount = words::against(Length::mm(short.abs()), Length::ZERO);
    let Some(touch) = touch else {
        return apart(view, amount);
    };
    let land = Land::of(view, rest, touch);
    let meets = meets(view, land.as_ref(), touch);
    let message = why(view, (rest, short), (amount, meets));
    let mut finding = RULE
        .at(head, message)
        .label(spots::span(pen, &touch.female), "what it meets")
        .label(spots::span(pen, &touch.male), "what meets it");
    if let Some(seat) = &view.joint.seat {
        finding = finding.label(seat.span, "to touch here");
    }
    match land {
        Some(land) => finding.hint(land.cure(view)),
        None if overlaps(view) => {
            let finding = finding.hint(match rest.goes_in_mm > TOUCHING_MM {
                true => "write how far it goes, or make room for what meets there",
                false => "join the ends that are meant",
            });
            let overlap = propose::overlap(view, Length::mm(rest.goes_in_mm)).into_iter();
            let turned = propose::turned(view).into_iter();
            // Where less than half goes in, other ends are meant if any will do.
            match rest.goes_in_mm < short {
                true => propose::with(finding, turned.chain(overlap)),
                false => propose::with(finding, overlap.chain(turned)),
            }
        }
        None => cure(view, touch, short, finding),
    }
}

/// Nothing touches where the joint ends.
fn apart(view: &JointView<'_>, amount: SizedText) -> Finding {
    let (one, other) = match &view.joint.seat {
        Some(seat) => (named(view, &seat.first), named(view, &seat.second)),
        None => (view.male_name().into(), view.female_name().into()),
    };
    let message = text!(
        "{} and {} end {} apart, and nothing holds them there",
        one,
        other,
        amount
    );
    let finding = RULE.at(view.joint.head, message);
    match &view.joint.seat {
        Some(seat) => finding.label(seat.span, "to touch here"),
        None => finding,
    }
}

/// Where it stops, by how much, and what it meets there.
fn why(
    view: &JointView<'_>,
    (rest, short): (&AtRest, f64),
    (amount, meets): (SizedText, SizedText),
) -> SizedText {
    match &view.joint.seat {
        Some(seat) if short < 0.0 => text!(
            "{} goes {} past {}; {}",
            named(view, &seat.first),
            amount,
            named(view, &seat.second),
            meets
        ),
        Some(seat) => text!(
            "{} stops {} short of {}: {}",
            named(view, &seat.first),
            amount,
            named(view, &seat.second),
            meets
        ),
        None if overlaps(view) => text!(
            "{} goes {} into {}, {} less than is written: {}",
            view.male_name(),
            words::against(Length::mm(rest.goes_in_mm.max(0.0)), Length::ZERO),
            view.female_name(),
            amount,
            meets
        ),
        None => text!(
            "{} stops {} short of where it would sit in {}: {}",
            view.male_name(),
            amount,
            view.female_name(),
            meets
        ),
    }
}

/// Whether it is an overlap, `by L`, that it is short of.
fn overlaps(view: &JointView<'_>) -> bool {
    view.joint.by.is_some() && view.joint.seat.is_none()
}

/// What meets what.
fn meets(view: &JointView<'_>, land: Option<&Land>, touch: &Touch) -> SizedText {
    let pen = view.pen.pen;
    match land {
        Some(land) => land.meets(view),
        None => text!(
            "{} meets {}",
            spots::words(pen, &touch.male),
            spots::words(pen, &touch.female)
        ),
    }
}

fn jams(view: &JointView<'_>, rest: &AtRest, touch: &Touch) -> Finding {
    let pen = view.pen.pen;
    let land = Land::of(view, rest, touch);
    let meets = meets(view, land.as_ref(), touch);
    let message = text!(
        "{} jams in {}: {} before any shoulder meets a face",
        view.male_name(),
        view.female_name(),
        meets
    );
    let hint = match land {
        Some(land) => land.cure(view),
        None => "cut a relief behind the outside thread, or carry the inside one further".into(),
    };
    let finding = RULE
        .at(view.joint.head, message)
        .label(spots::span(pen, &touch.female), "what it meets")
        .label(spots::span(pen, &touch.male), "what meets it")
        .hint(hint);
    let thread = rest.engagements.first().map(|it| it.threads.male);
    let relief = thread.and_then(|it| propose::relieved(view.pen.design, view.male, it));
    propose::with(finding, relief.into_iter().chain(propose::turned(view)))
}

/// A hole that is too shallow is cured by its depth; a joint that was written the other way round
/// by turning it.
fn cure(view: &JointView<'_>, touch: &Touch, short: f64, finding: Finding) -> Finding {
    let finding = finding.hint(match short < 0.0 {
        true => "make the seat fatter than the hole it is to stop at",
        false => "make room for what meets there, or shorten what goes in",
    });
    let by = Length::mm(short) + propose::ROOM;
    let deeper = propose::deeper(view, &touch.female, by);
    propose::with(finding, deeper.into_iter().chain(propose::turned(view)))
}

fn named(view: &JointView<'_>, face: &quillet_model::PenFace) -> SizedText {
    let part = &view.pen.pen.parts[face.part];
    text!("{}.{}", part.name.text, face.face.text)
}
