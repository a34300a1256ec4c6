//! What is said of an end that is taken for the other, and how it is put right.

use super::{RULE, WrongEnd};
use crate::JointView;
use crate::propose;
use crate::shape::Threaded;
use quillet_model::End;
use quillet_syntax::{Edit, Finding, Span, lex, text};

/// `into` where `onto` is meant, or the other way.
pub(super) fn direction(view: &JointView<'_>, thread: Threaded<'_>) -> Finding {
    let message = text!(
        "{} goes into {}: the thread stands outside on {}",
        view.female_name(),
        view.male_name(),
        view.female.name.text
    );
    let finding = RULE
        .at(view.joint.head, message)
        .label(thread.feature.span, "the outside thread");
    match propose::direction(view) {
        Some((title, edits)) => finding.hint(title.clone()).fix_all(title, edits),
        None => finding.hint("turn the joint round"),
    }
}

/// `outside` where `inside` is meant.
pub(super) fn side(view: &JointView<'_>, thread: Threaded<'_>) -> Finding {
    let (word, meant) = ("outside", "inside");
    let cut = thread.feature.span;
    let written = view.pen.design.text(cut);
    let mut words = lex(cut.file, written).into_iter().map(|it| it.span.range());
    let place = words.find(|it| &written[it.clone()] == word).map(|it| {
        let start = cut.start as usize;
        Span::new(cut.file, start + it.start, start + it.end)
    });
    let message = text!(
        "{} goes into {}, and {} is cut {} on both",
        view.male_name(),
        view.female_name(),
        thread.thread.called(),
        word
    );
    let title = text!("write {}", meant);
    let finding = RULE
        .at(place.unwrap_or(cut), message)
        .label(view.joint.head, "joined here")
        .hint(title.clone());
    match place {
        Some(place) => finding.fix_all(title, vec![Edit::new(place, meant)]),
        None => finding,
    }
}

/// The other end of a part in a joint.
pub(super) fn end(it: &WrongEnd<'_>) -> Finding {
    let part = it.part();
    let (male, female) = it.ends();
    let other = part.end_name(it.named.end.other());
    let message = text!(
        "{} does not go into {}: the thread is at {}'s {}",
        male,
        female,
        part.name.text,
        other
    );
    let title = text!("write {}", it.meant());
    RULE.at(it.joint.joint.head, message)
        .label(
            it.thread.feature.span,
            text!("{}, cut from the {}", it.thread.thread.called(), other),
        )
        .hint(title.clone())
        .fix_all(title, vec![Edit::new(it.named.span, it.meant())])
}

/// The block of a thread named after the wrong end: where another joint takes the end it is named
/// after in the same way, or another block bears that name too and none the name that is wanted.
pub(super) fn block(it: &WrongEnd<'_>) -> Option<Finding> {
    let (part, taken) = (it.part(), it.named.end.other());
    let mut others = it
        .joint
        .pen
        .joints()
        .filter(|other| other.id != it.joint.id);
    let male = it.named == it.joint.joint.male;
    let takes = |other: JointView<'_>| {
        let end = if male {
            other.joint.male
        } else {
            other.joint.female
        };
        end.part == it.named.part && end.end == taken
    };
    let cut_from = |end: End| part.features.iter().filter(move |it| it.end == end);
    let block = it.thread.feature.block;
    let named_twice =
        cut_from(taken).any(|it| it.block != block) && cut_from(it.named.end).next().is_none();
    if part.is_bought() || !(named_twice || others.any(takes)) {
        return None;
    }
    let span = it.block_name()?;
    let (male, female) = it.ends();
    let wanted = part.end_name(it.named.end);
    let message = text!(
        "{} goes into {}, and {} for it is cut from the {}",
        male,
        female,
        it.thread.thread.called(),
        part.end_name(taken)
    );
    let title = text!("write from {}", wanted);
    Some(
        RULE.at(span, message)
            .label(it.joint.joint.head, "joined here")
            .label(it.thread.feature.span, "the thread")
            .hint(title.clone())
            .fix_all(title, vec![Edit::new(span, wanted)])
            .fix_all(
                text!("write {}", it.meant()),
                vec![Edit::new(it.named.span, it.meant())],
            ),
    )
}

/// Both ends of a part, each taken for the other.
pub(super) fn swapped(one: &WrongEnd<'_>, other: &WrongEnd<'_>) -> Option<Finding> {
    let part = one.part();
    let (first, second) = match one.thread.feature.span < other.thread.feature.span {
        true => (one, other),
        false => (other, one),
    };
    let spans = first.block_name().zip(second.block_name());
    let name = |end: End| part.end_name(end);
    let message = text!(
        "{}'s ends are swapped: {} is cut from the {} and meant for the {}, {} the other way round",
        part.name.text,
        first.thread.thread.called(),
        name(first.thread.feature.end),
        name(first.named.end),
        second.thread.thread.called()
    );
    let (a, b) = spans?;
    let blocks = vec![
        Edit::new(a, name(first.named.end)),
        Edit::new(b, name(second.named.end)),
    ];
    let joints = vec![
        Edit::new(first.named.span, first.meant()),
        Edit::new(second.named.span, second.meant()),
    ];
    let title = text!(
        "swap {} and {} after from",
        name(End::First),
        name(End::Second)
    );
    Some(
        RULE.at(a, message)
            .label(b, "the other end")
            .label(first.joint.joint.head, "joined here")
            .label(second.joint.joint.head, "and here")
            .hint(title.clone())
            .fix_all(title, blocks)
            .fix_all("swap the ends in the two joints", joints),
    )
}
