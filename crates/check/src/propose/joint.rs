//! A joint the other way round: `onto` for `into`, a part's other end.

use super::Proposal;
use crate::JointView;
use quillet_model::{JointEnd, Part};
use quillet_syntax::{Edit, Span, text};

/// What a maker may have meant who wrote a joint that does not go together: the other of `into`
/// and `onto`, then the other end of each part.
pub(crate) fn turned(view: &JointView<'_>) -> Vec<Proposal> {
    let joint = view.joint;
    let ends = [(joint.first(), true), (joint.second(), false)];
    let other_end = |(end, _): (JointEnd, bool)| {
        let part = view.pen.pen.parts.get(end.part)?;
        renamed(part, end)
    };
    direction(view)
        .into_iter()
        .chain(ends.into_iter().filter_map(other_end))
        .collect()
}

/// `into` for `onto`, or the other way.
fn direction(view: &JointView<'_>) -> Option<Proposal> {
    let (first, second) = (view.joint.first().span, view.joint.second().span);
    let between = Span::new(first.file, first.end as usize, second.start as usize);
    let said = view.pen.design.text(between);
    let (word, meant) = [("into", "onto"), ("onto", "into")]
        .into_iter()
        .find(|(word, _)| said.trim() == *word)?;
    let start = between.start as usize + said.find(word)?;
    let edit = Edit {
        span: Span::new(between.file, start, start + word.len()),
        text: meant.into(),
    };
    Some((text!("write {}", meant), vec![edit]))
}

/// The other end of a part.
fn renamed(part: &Part, end: JointEnd) -> Option<Proposal> {
    let ends = part.ends.as_ref()?;
    let other = format!("{}.{}", part.name.text, ends[end.end.other().index()].text);
    let edit = Edit {
        span: end.span,
        text: other.as_str().into(),
    };
    Some((text!("write {}", other), vec![edit]))
}
