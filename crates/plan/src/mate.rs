//! What each end of a part meets.

use quillet_model::{End, Pen};
use quillet_syntax::ast::Verb;
use std::sync::Arc;

/// What an end of a part meets in a pen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mate {
    /// The other part's name.
    pub part: Arc<str>,
    /// The other part's end.
    pub end: Arc<str>,
    /// The other part is bought.
    pub bought: bool,
    /// This part goes into the other.
    pub goes_in: bool,
    /// How they are joined.
    pub verb: Verb,
}

/// What each end of a part meets, in the order of the joints.
pub(crate) type Mates = [Vec<Mate>; 2];

/// What the two ends of a pen's part meet.
pub(crate) fn mates(pen: &Pen, part: usize) -> Mates {
    let mut found = Mates::default();
    for joint in &pen.joints {
        // A post is no joint to be made: it is where the cap goes while writing.
        if joint.verb == Verb::Post {
            continue;
        }
        for (own, other, goes_in) in [
            (joint.male, joint.female, true),
            (joint.female, joint.male, false),
        ] {
            let Some(mate) = pen.parts.get(other.part).filter(|_| own.part == part) else {
                continue;
            };
            found[own.end.index()].push(Mate {
                part: mate.name.text.clone(),
                end: Arc::from(mate.end_name(other.end)),
                bought: mate.bought,
                goes_in,
                verb: joint.verb,
            });
        }
    }
    found
}

/// The two parts of the joint that opens to write, each with its end: the cap first.
pub(crate) fn closing_partner(pen: &Pen) -> Option<[(usize, End); 2]> {
    let joint = pen.joints.iter().find(|it| it.verb == Verb::Close)?;
    Some([
        (joint.female.part, joint.female.end),
        (joint.male.part, joint.male.end),
    ])
}
