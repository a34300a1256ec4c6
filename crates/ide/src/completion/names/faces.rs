//! Ends and faces of parts.

use super::super::standing::Standing;
use super::super::{Choice, ChoiceKind, CompletionContext, DocumentationKey};
use quillet_syntax::ast::{PenLineKind, Verb};
use quillet_syntax::visit::{Node, path_at};

/// The ends of the part the cursor is in.
pub(crate) fn ends(at: CompletionContext<'_>) -> Vec<Choice> {
    let design = &at.cursor.analysis.design;
    let item = at.item();
    let part = item.and_then(|item| design.parts.iter().find(|part| part.span == item.span));
    let ends = part
        .and_then(|part| part.ends.as_ref())
        .into_iter()
        .flatten();
    let own = part.map(|part| &*part.name.text).unwrap_or_default();
    // What is cut from already comes behind what is not.
    let cuts = at.verb().is_none_or(|verb| verb == "from");
    let standing = cuts.then(|| Standing::of(at));
    let taken = |end: &str| standing.as_ref().is_some_and(|it| it.has("from", end));
    ends.map(|end| {
        let rank = u8::from(taken(&end.text));
        face(own, end.text.to_string(), "an end of this part").ranked(rank)
    })
    .collect()
}

/// The faces of every part, as a joint names them; within a joint those of its two parts, and
/// after its first face those of the others.
pub(crate) fn faces(at: CompletionContext<'_>) -> Vec<Choice> {
    let parts = &at.cursor.analysis.design.parts;
    let joined = joined(at);
    let taken = taken(at);
    let wanted = |name: &str| match joined {
        Some(both) => both.contains(&name),
        None => !taken.contains(&name),
    };
    let wanted = parts.iter().filter(|part| wanted(&part.name.text));
    let faces = wanted.flat_map(|part| {
        part.faces.iter().map(move |found| {
            let label = format!("{}.{}", part.name.text, found.name.text);
            let detail = match found.end {
                Some(_) => "an end",
                None => "a named face",
            };
            face(&part.name.text, label, detail).ranked(if found.end.is_some() { 1 } else { 2 })
        })
    });
    faces.collect()
}

/// The two parts of the joint in whose block the cursor is.
pub(super) fn joined<'a>(at: CompletionContext<'a>) -> Option<[&'a str; 2]> {
    let nodes = path_at(&at.cursor.file.parsed.tree, at.cursor.offset);
    let joint = nodes.iter().find_map(|node| match node {
        Node::PenLine(line) => match &line.kind {
            PenLineKind::Joint(joint) => Some(joint),
            _ => None,
        },
        _ => None,
    })?;
    let block = joint.block?;
    let within = block.start < at.expected.word.start && at.expected.word.end <= block.end;
    within.then_some([&*joint.first.part.text, &*joint.second.part.text])
}

/// The parts that this joint already names: nothing is joined to itself.
pub(super) fn taken<'a>(at: CompletionContext<'a>) -> Vec<&'a str> {
    if at
        .verb()
        .is_none_or(|verb| Verb::ALL.iter().all(|it| it.word() != verb))
    {
        return Vec::new();
    }
    let before: Vec<&str> = at.before().collect();
    let named = before.windows(2).filter(|pair| pair[0] == ".");
    named.map(|pair| pair[1]).collect()
}

/// The faces of the part named before the dot.
pub(crate) fn faces_of_part(at: CompletionContext<'_>) -> Vec<Choice> {
    let mut before = at.before();
    let name = before.find(|word| *word != ".");
    let part = name.and_then(|name| at.cursor.analysis.design.part(name));
    let faces = part.into_iter().flat_map(|part| &part.faces);
    faces
        .map(|found| {
            let detail = format!("at {}", at.cursor.file.units().short(found.at));
            face(
                name.unwrap_or_default(),
                found.name.text.to_string(),
                &detail,
            )
            .ranked(0)
        })
        .collect()
}

/// A face; there is no more to tell of one than of its part.
fn face(part: &str, label: String, detail: &str) -> Choice {
    let about = DocumentationKey::Name(part.to_owned());
    Choice::plain(label, ChoiceKind::Face, detail, about)
}
