//! A joint the other way round: `onto` for `into`, a part's other end.

use super::{Proposal, literal};
use crate::JointView;
use crate::shape::threads;
use quillet_geometry::Length;
use quillet_model::{End, JointEnd, Part};
use quillet_syntax::ast::{Side, Verb};
use quillet_syntax::{Edit, Size, Span, text};

/// What a maker may have meant who wrote a joint that does not go together: the other of `into`
/// and `onto`, then the other end of each part.
pub(crate) fn turned(view: &JointView<'_>) -> Vec<Proposal> {
    let joint = view.joint;
    let threaded = matches!(joint.verb, Verb::Screw | Verb::Close);
    let turned = mated(view.female, view.male);
    let mut proposals = Vec::new();
    if !threaded || turned.is_some() && mated(view.male, view.female).is_none() {
        proposals.extend(direction(view));
    }
    // The thread that is meant is cut from the other end.
    let meant = mated(view.male, view.female).or(turned.map(|(one, other)| (other, one)));
    let ends = meant.map(|(male, female)| [(joint.male, male), (joint.female, female)]);
    let plain = [
        (joint.male, joint.male.end.other()),
        (joint.female, joint.female.end.other()),
    ];
    let other = ends.unwrap_or(plain);
    let wrong = other.into_iter().filter(|(end, meant)| end.end != *meant);
    let renamed = wrong
        .filter(|_| !threaded || ends.is_some())
        .filter_map(|(end, _)| {
            let part = view.pen.pen.parts.get(end.part)?;
            renamed(part, end)
        });
    proposals.extend(renamed);
    proposals
}

/// The ends from which an outside thread of one part and the inside thread of another are cut that
/// screw together; none where no two do.
fn mated(male: &Part, female: &Part) -> Option<(End, End)> {
    threads(male, Side::Outside).find_map(|one| {
        let mut inside = threads(female, Side::Inside);
        let other = inside.find(|it| it.thread.thread.mates_with(&one.thread.thread))?;
        Some((one.feature.end, other.feature.end))
    })
}

/// `into` for `onto`, or the other way.
pub(crate) fn direction(view: &JointView<'_>) -> Option<Proposal> {
    let (first, second) = (view.joint.first().span, view.joint.second().span);
    let between = Span::new(first.file, first.end as usize, second.start as usize);
    let written = view.pen.design.text(between);
    let (word, meant) = [("into", "onto"), ("onto", "into")]
        .into_iter()
        .find(|(word, _)| written.trim() == *word)?;
    let start = between.start as usize + written.find(word)?;
    let edit = Edit::new(Span::new(between.file, start, start + word.len()), meant);
    Some((text!("write {}", meant), vec![edit]))
}

/// The overlap of a joint written as far as it goes, to a hundredth; not where it goes nowhere.
pub(crate) fn overlap(view: &JointView<'_>, goes_in: Length) -> Option<Proposal> {
    let (_, span) = view.joint.by?;
    // Contacts are told apart to less than this.
    let nearly = Length::from_nm(1_000);
    let by = view.pen.design.units_at(span).fine_down(goes_in + nearly);
    literal(view.pen.design, span)?;
    by.is_positive().then(|| {
        let title = text!("write by {}", Size::Written(by));
        (title, vec![Edit::new(span, Size::Written(by))])
    })
}

/// The other end of a part.
fn renamed(part: &Part, end: JointEnd) -> Option<Proposal> {
    let ends = part.ends.as_ref()?;
    let other = format!("{}.{}", part.name.text, ends[end.end.other().index()].text);
    let edit = Edit::new(end.span, other.as_str());
    Some((text!("write {}", other), vec![edit]))
}
