//! `loose-part`: a part that nothing holds.

use crate::{Findings, PenView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_model::{PartId, StoppedBy, TOUCHING_MM};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "loose-part",
    severity: Severity::Error,
    limit: None,
    page: include_str!("loose-part.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    groups(view, findings);
    joints(view, findings);
}

/// Parts that are joined to nothing else.
fn groups(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    for group in &pen.assembly.loose {
        let names: Vec<String> = group
            .iter()
            .map(|part| pen.parts[*part].name.text.to_string())
            .collect();
        let joint = pen.joints.iter().find(|joint| {
            group.contains(&joint.male.part) || joint.through.iter().any(|it| group.contains(it))
        });
        let be = if names.len() == 1 { "is" } else { "are" };
        let message = text!(
            "{} {} joined to nothing else of the pen",
            words::list(&names),
            be
        );
        findings.push(
            RULE.at(joint.map_or(pen.name.span, |joint| joint.head), message)
                .hint("add the joint that holds it, or take it out of the pen"),
        );
    }
}

/// Joints that nothing stops, and what rattles in them.
fn joints(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    for at in view.joints() {
        let joint = at.joint;
        let Some(rest) = at.at_rest().filter(|rest| !rest.redundant) else {
            continue;
        };
        let known = |part: PartId| pen.parts[part].profiles.is_some();
        let drawn = known(joint.male.part) && known(joint.female.part);
        if rest.stopped_by == StoppedBy::Nothing && drawn && joint.verb != Verb::Post {
            let (male, female) = (
                &pen.parts[joint.male.part].name.text,
                &pen.parts[joint.female.part].name.text,
            );
            let message = text!(
                "nothing stops {} in {}; it would slide right through",
                male,
                female
            );
            findings.push(
                RULE.at(joint.head, message)
                    .hint("give one of them a shoulder, or say how far it goes with by"),
            );
        }
        // A joint that does not close leaves room that it was not meant to leave.
        // Of a spring between parts that others place, `spring-slack` tells.
        if !rest.verdict.closes() || rest.redundant {
            continue;
        }
        for trapped in rest.trapped.iter().filter(|it| it.room_mm > TOUCHING_MM) {
            let message = text!(
                "{} has {} of room between the two; it would rattle",
                pen.parts[trapped.part].name.text,
                words::against(Length::mm(trapped.room_mm), Length::ZERO)
            );
            let finding = RULE.at(joint.head, message);
            findings.push(
                Finding {
                    severity: Severity::Warning,
                    ..finding
                }
                .label(pen.parts[trapped.part].name.span, "trapped there")
                .hint("shorten the spigot or the seat so that it is held"),
            );
        }
    }
}
