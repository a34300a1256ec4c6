//! What the last page says: where parts touch, and how they are put together.

use super::content::{Contact, PenPictures};
use quillet_model::{AtRest, Joint, Pen, Units};
use quillet_syntax::ast::Verb;

/// Contacts in capitals, clearances in small letters.
pub(super) fn contacts(looks: &PenPictures) -> Vec<Contact> {
    let Some(section) = &looks.section else {
        return Vec::new();
    };
    let mut counts = [0_u8; 2];
    // What only passes beside is told where it is fitted, not here.
    let shown = section.spots.iter().filter(|it| !it.0.passing);
    let each = shown.map(|(callout, at)| {
        let (first, count) = match callout.touches {
            true => (b'A', &mut counts[0]),
            false => (b'a', &mut counts[1]),
        };
        let letter = char::from(first + (*count).min(25));
        *count = count.saturating_add(1);
        Contact {
            letter: letter.to_string(),
            touches: callout.touches,
            between: callout.between.clone(),
            left: callout.left.clone(),
            spot: *at,
        }
    });
    each.collect()
}

/// The joints that are made when the parts are finished, in their order, each with its turns or how far it
/// is pushed.
pub(crate) fn order(pen: &Pen, units: Units) -> Vec<(String, String)> {
    let joints = pen.joined_at_last().filter_map(|(id, joint)| {
        let rest = pen.assembly.joints.get(id)?;
        Some((caption(pen, joint), count(joint, rest, units)))
    });
    joints.collect()
}

fn caption(pen: &Pen, joint: &Joint) -> String {
    let name = |id| {
        let part = pen.parts.get(id);
        part.map_or_else(String::new, |it| it.name.text.replace('-', " "))
    };
    let (first, second) = (joint.first(), joint.second());
    let how = match (joint.verb, first.part == joint.male.part) {
        (Verb::Glue, true) => "glued into",
        (Verb::Glue, false) => "glued onto",
        (_, true) => "into",
        (_, false) => "onto",
    };
    let first = name(first.part);
    let mut letters = first.chars();
    let head = letters
        .next()
        .map(|it| it.to_uppercase().to_string())
        .unwrap_or_default();
    let posted = if joint.verb == Verb::Post {
        " to write"
    } else {
        ""
    };
    format!(
        "{head}{} {how} the {}{posted}",
        letters.as_str(),
        name(second.part)
    )
}

/// `9.7 turns`, `push 5`, or what holds it.
fn count(joint: &Joint, rest: &AtRest, units: Units) -> String {
    if let Some(engaged) = rest.engagements.first() {
        return match engaged.turns() {
            turns if turns < 4.0 => format!("{turns:.2} turns"),
            turns => format!("{turns:.1} turns"),
        };
    }
    match (joint.verb, joint.by) {
        (Verb::Push, Some((by, _))) => format!("push {}", units.plain(by)),
        (Verb::Glue, _) => "glue".into(),
        (Verb::Press, _) => "press".into(),
        (Verb::Post, _) => "post".into(),
        (Verb::Rest, _) => "rest".into(),
        _ => "push".into(),
    }
}
