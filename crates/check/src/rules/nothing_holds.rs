//! `nothing-holds`: a joint, or a glued spigot, that nothing holds together.

use super::joint_threads::JointThreads;
use crate::held::room;
use crate::{Findings, JointView, PartView, Rule, Run, propose};
use quillet_geometry::Length;
use quillet_model::{FREE_MM, FitRequest, GLUE_GAP, GLUE_MM, PUSH, PartId, PlainFit, StoppedBy};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "nothing-holds",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("nothing-holds.md"),
    run: Run::PartAndJoint(spigots, run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|rest| !rest.redundant) else {
        return;
    };
    // What lies round a part that slides is not known where one of the pen's could not be read.
    if view.joint.verb == Verb::Slip && view.pen.pen.parts.iter().any(|part| !part.whole) {
        return;
    }
    let lies = rest.verdict.is_sure() && rest.stopped_by != StoppedBy::Nothing;
    if !lies || !rest.verdict.held_by.is_empty() {
        return;
    }
    let (male, female) = (&view.male.name.text, &view.female.name.text);
    // A cap is told of by its name.
    let pair = match view.joint.verb {
        Verb::Close => {
            let (one, other) = (view.joint.first().part, view.joint.second().part);
            let name = |part: PartId| &view.pen.pen.parts[part].name.text;
            text!("{} on {}", name(one), name(other))
        }
        _ => text!("{} in {}", male, female),
    };
    if let Some((why, hint)) = reason(view, rest.fit) {
        let finding = RULE
            .at(view.joint.head, text!("nothing holds {}: {}", pair, why))
            .label(view.joint.male.span, "what goes in")
            .label(view.joint.female.span, "what receives it")
            .hint(hint);
        findings.push(propose::with(finding, propose::turned(view)));
    }
}

/// Why nothing holds it and what would; none where another rule tells of it.
fn reason(view: &JointView<'_>, fit: Option<PlainFit>) -> Option<(SizedText, SizedText)> {
    let apart = || SizedText::from("nothing of the one lies in the other");
    match view.joint.verb {
        Verb::Close => {
            // A thread that is missing or does not match is told of as such.
            let threads = JointThreads::of(view);
            if !threads.male.is_empty() || !threads.female.is_empty() {
                return None;
            }
            let room = fit.map_or_else(apart, |it| room(it.clearance));
            Some((
                text!("no thread in common, {}", room),
                "cut a thread on both, or let an O-ring, a snap or magnets hold it".into(),
            ))
        }
        Verb::Push => {
            let why = fit.map_or_else(apart, |it| {
                text!(
                    "{}; a push holds from {} of interference to {} of clearance",
                    room(it.clearance),
                    -PUSH.0,
                    PUSH.1
                )
            });
            Some((
                why,
                "make the two nearer in size, or screw or glue it".into(),
            ))
        }
        Verb::Slip => Some((
            text!("it draws {} out and nothing stops it", Length::mm(FREE_MM)),
            "let a part that is screwed, pressed or glued close behind it, or press or glue it"
                .into(),
        )),
        Verb::Glue => unglued(view, fit),
        // Told by `missing-thread`, `poor-fit` and `wont-post`; a pen rests in its stand by weight.
        Verb::Screw | Verb::Press | Verb::Post | Verb::Rest => None,
    }
}

fn unglued(view: &JointView<'_>, fit: Option<PlainFit>) -> Option<(SizedText, SizedText)> {
    let (_, most) = GLUE_GAP;
    if let Some(material) = view.joint.unglueable(&view.pen.pen.parts) {
        return Some((
            text!("glue does not stick to {}", material.name),
            "press it, screw it, or pin it".into(),
        ));
    }
    let long = || "let the one reach further into the other".into();
    let Some(fit) = fit else {
        return Some((
            text!(
                "the glue joint is butt; {} of overlap at least holds",
                Length::mm(GLUE_MM)
            ),
            long(),
        ));
    };
    let asked = view.joint.asks.as_ref().map(|(asked, _)| *asked);
    // A gap that is not the one asked for is told of as such.
    let reported = matches!(asked, Some(FitRequest::Gap(gap)) if gap <= most);
    if fit.clearance > most && !reported {
        return Some((
            text!(
                "a gap of {} for the glue; it holds in {} to {}",
                fit.clearance,
                Size::Near(GLUE_GAP.0, 2),
                most
            ),
            text!("bring the two within {} of each other on diameter", most),
        ));
    }
    let short = fit.near_mm < GLUE_MM - 1e-6 && fit.clearance <= most;
    short.then(|| {
        (
            text!(
                "the glue reaches over {}; {} at least holds",
                Size::Rounded(Length::mm(fit.near_mm), 1),
                Length::mm(GLUE_MM)
            ),
            long(),
        )
    })
}

/// The spigots of a glued blank.
fn spigots(view: &PartView<'_>, findings: &mut Findings) {
    let (_, most) = GLUE_GAP;
    for piece in view.part.blanks() {
        let Some(spigot) = &piece.spigot else {
            continue;
        };
        let why = if spigot.gap > most {
            text!(
                "a gap of {} for the glue; it holds in {} to {}",
                spigot.gap,
                Size::Near(GLUE_GAP.0, 2),
                most
            )
        } else if spigot.length < Length::mm(GLUE_MM) {
            text!(
                "the glue reaches over {}; {} at least holds",
                spigot.length,
                Length::mm(GLUE_MM)
            )
        } else {
            continue;
        };
        let message = text!(
            "nothing holds the spigot of {}: {}",
            piece.stock.material.name,
            why
        );
        let from = piece.from.min(piece.from - spigot.length);
        findings.push_at(
            RULE.at(spigot.span, message).hint(text!(
                "turn the spigot to the hole less {}, a diameter long where there is room",
                Length::mm(0.1)
            )),
            from,
            piece.to,
        );
    }
}
