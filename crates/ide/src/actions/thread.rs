//! Cuts the thread that one part of a joint has and the other lacks.

use super::{Action, ActionKind, as_last_lines, concerns};
use crate::Cursor;
use quillet_model::{Design, End, Feature, Joint, Part, Pen};
use quillet_syntax::ast::{ItemKind, LineKind, Side};
use quillet_syntax::{Edit, Finding, RuleId, Span};

/// For each joint within a span of which one part has no thread: the other's, cut on it.
pub(super) fn cut(cursor: Cursor<'_>, findings: &[Finding], within: Span) -> Vec<Action> {
    let design = &cursor.analysis.design;
    let missing = findings.iter().enumerate();
    let missing =
        missing.filter(|(_, it)| it.rule == RuleId::MISSING_THREAD && concerns(it, within));
    let actions = missing.filter_map(|(index, finding)| {
        let mut joints = design
            .pens
            .iter()
            .flat_map(|pen| pen.joints.iter().map(move |joint| (pen, joint)));
        let (pen, joint) = joints.find(|(_, joint)| joint.head == finding.span)?;
        let lack = lack(design, pen, joint)?;
        Some(Action {
            title: format!("cut {} on {}", lack.called, lack.part.name.text),
            kind: ActionKind::Fix,
            edits: vec![lines_from_end(design, lack.part, lack.end, &lack.lines)?],
            cures: Some(index),
            preferred: false,
        })
    });
    actions.collect()
}

/// A thread that a part lacks.
struct Lack<'a> {
    part: &'a Part,
    end: End,
    called: String,
    /// The cuts that make it.
    lines: Vec<String>,
}

fn lack<'a>(design: &Design, pen: &'a Pen, joint: &'a Joint) -> Option<Lack<'a>> {
    let (male, female) = (
        pen.parts.get(joint.male.part)?,
        pen.parts.get(joint.female.part)?,
    );
    let outside = thread_of(male, Side::Outside, joint);
    let inside = thread_of(female, Side::Inside, joint);
    let (known, part, end) = match (outside, inside) {
        (Some(known), None) => (known, female, joint.female.end),
        (None, Some(known)) => (known, male, joint.male.end),
        _ => return None,
    };
    let (thread, side) = known.thread()?;
    let name = match &thread.name {
        Some(name) => name.text.to_string(),
        None => match thread.thread.starts() {
            1 => thread.designation.text.to_string(),
            starts => format!("{} starts {starts}", thread.designation.text),
        },
    };
    let depth = design.units_at(part.span).written(known.to);
    let lines = match side {
        Side::Outside => vec![format!("thread {name} inside to {depth}")],
        // The die runs on a tenon; its diameter is the thread's.
        Side::Inside => vec![
            format!("tenon for {depth}"),
            format!("thread {name} outside for {depth}"),
        ],
    };
    Some(Lack {
        part,
        end,
        called: thread.called(),
        lines,
    })
}

/// The thread that a part has on a side for a joint.
fn thread_of<'a>(part: &'a Part, wanted: Side, joint: &Joint) -> Option<&'a Feature> {
    part.features.iter().find(|feature| {
        feature.thread().is_some_and(|(thread, side)| {
            let named = joint.with.as_ref();
            side == wanted && named.is_none_or(|with| with.span == thread.span)
        })
    })
}

/// Adds cuts from an end of a part: last in that end's block, or in a block of their own.
fn lines_from_end(design: &Design, part: &Part, end: End, lines: &[String]) -> Option<Edit> {
    let file = design.file(part.span.file)?;
    let items = &file.parsed.tree.items;
    let item = items.iter().find(|item| item.span == part.span)?;
    let written = match &item.kind {
        ItemKind::Part(written) | ItemKind::Bought(written) => written,
        _ => return None,
    };
    let end = part.end_name(end);
    let block = written.lines.iter().find(
        |line| matches!(&line.kind, LineKind::From { end: named, .. } if *named.text == *end),
    );
    if let Some(block) = block {
        return as_last_lines(&file.text, block.span, lines);
    }
    let own: Vec<String> = std::iter::once(format!("from {end} {{"))
        .chain(lines.iter().map(|line| format!("  {line}")))
        .chain(["}".to_owned()])
        .collect();
    as_last_lines(&file.text, written.block?, &own)
}
