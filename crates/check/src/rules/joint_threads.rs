//! Which threads of two parts a joint may mean.

use crate::JointView;
use crate::shape::{Threaded, threads};
use quillet_model::{Joint, Part};
use quillet_syntax::ast::{Side, Verb};

/// The outside threads of the part that goes in and the inside ones of the part that receives
/// it, those that other joints of the pen hold left out.
pub(super) struct JointThreads<'a> {
    pub(super) male: Vec<Threaded<'a>>,
    pub(super) female: Vec<Threaded<'a>>,
}

impl<'a> JointThreads<'a> {
    pub(super) fn of(view: &JointView<'a>) -> Self {
        let meant = |it: &Threaded<'_>| match &view.joint.with {
            Some(with) => with.thread.mates_with(&it.thread.thread),
            None => true,
        };
        let free = |part: &'a Part, side: Side| {
            let on_it = threads(part, side).filter(meant);
            on_it
                .filter(|it| !held_elsewhere(view, part, it, side))
                .collect()
        };
        Self {
            male: free(view.male, Side::Outside),
            female: free(view.female, Side::Inside),
        }
    }

    /// Whether any two screw together.
    pub(super) fn meet(&self) -> bool {
        let fits = |male: &Threaded<'_>| {
            self.female
                .iter()
                .any(|it| it.thread.thread.mates_with(&male.thread.thread))
        };
        self.male.iter().any(fits)
    }

    /// The two that come nearest to each other in diameter.
    pub(super) fn nearest(&self) -> Option<(Threaded<'a>, Threaded<'a>)> {
        let pairs = self
            .male
            .iter()
            .flat_map(|male| self.female.iter().map(|it| (*male, *it)));
        pairs.min_by_key(|(male, female)| {
            (male.thread.thread.major() - female.thread.thread.major()).abs()
        })
    }
}

/// Whether another threaded joint of the pen holds this thread: its mate lies there.
fn held_elsewhere(view: &JointView<'_>, part: &Part, it: &Threaded<'_>, side: Side) -> bool {
    let pen = view.pen.pen;
    let other_side = if side == Side::Outside {
        Side::Inside
    } else {
        Side::Outside
    };
    let mate_of = |joint: &Joint| {
        let (own, mate) = match side {
            Side::Outside => (joint.male.part, joint.female.part),
            Side::Inside => (joint.female.part, joint.male.part),
        };
        let own = pen.parts.get(own)?;
        (own.name.text == part.name.text).then(|| pen.parts.get(mate))?
    };
    let own_mate = mate_of(view.joint);
    pen.joints
        .iter()
        .filter(|joint| !std::ptr::eq(*joint, view.joint))
        .filter(|joint| matches!(joint.verb, Verb::Screw | Verb::Close))
        .filter_map(mate_of)
        .filter(|mate| own_mate.is_none_or(|own| own.name.text != mate.name.text))
        .any(|mate| {
            threads(mate, other_side).any(|other| other.thread.thread.mates_with(&it.thread.thread))
        })
        && own_mate.is_none_or(|mate| {
            !threads(mate, other_side)
                .any(|other| other.thread.thread.mates_with(&it.thread.thread))
        })
}
