//! Joints that rest as they did when a pen was put together before: nothing that they rest on is otherwise.

use super::contact::Member;
use super::settle::{Bodies, SeatedJoint};
use super::{AtRest, HeldBy, Placement, Verdict};
use crate::{ById, Joint, JointId, PartId, Pen};
use quillet_syntax::ast::Verb;
use std::sync::Arc;

/// A pen that was put together before, beside one that is put together now.
pub(crate) struct EarlierPen<'p> {
    earlier: &'p Pen,
    /// The parts that are the very same, made by the same hand.
    same: ById<PartId, bool>,
    /// The joints that come to rest as they did.
    alike: ById<JointId, bool>,
}

impl<'p> EarlierPen<'p> {
    /// With where each joint of the pen comes to rest now; none where that may rest on more than the
    /// parts that a joint brings together.
    pub(crate) fn of(
        earlier: &'p Pen,
        pen: &Pen,
        bodies: &Bodies,
        settled: &ById<JointId, Option<SeatedJoint>>,
    ) -> Option<Self> {
        let assembly = &earlier.assembly;
        let in_pockets = !bodies.pockets.is_empty() || !assembly.pockets.is_empty();
        if in_pockets || bodies.nib != assembly.nib {
            return None;
        }
        let same = |(id, part): (PartId, &Arc<_>)| {
            let of_it = earlier.parts.get(id).zip(earlier.hands.get(id));
            of_it.is_some_and(|(before, hand)| {
                Arc::ptr_eq(before, part) && Some(hand) == pen.hands.get(id)
            })
        };
        let alike = |id: JointId| {
            let before = earlier.joints.get(id).zip(assembly.joints.get(id));
            before.is_some_and(|(joint, at_rest)| {
                rests_as(&pen.joints[id], joint)
                    && match &settled[id] {
                        Some(rest) => came_to(at_rest, rest),
                        None => at_rest.redundant,
                    }
            })
        };
        Some(EarlierPen {
            earlier,
            same: pen.parts.with_ids().map(same).collect(),
            alike: pen.joints.ids().map(alike).collect(),
        })
    }

    /// A joint at rest as it was worked out then, before it was judged; none where it is to be worked out anew.
    pub(crate) fn kept(&self, pen: &Pen, id: JointId, rest: &SeatedJoint) -> Option<AtRest> {
        let members = || rest.males.iter().chain(&rest.females);
        // What slips is drawn out of all that lies in its way.
        let slips = pen.joints[id].verb == Verb::Slip;
        if slips || !self.alike[id] || !members().all(|it| self.same[it.part]) {
            return None;
        }
        let mut holds = pen.parts.map(|_| false);
        members().for_each(|it| holds[it.part] = true);
        // How the parts of either side move against each other, as their sizes stray, is said by the joints
        // among them.
        let mut among = pen.joints.with_ids().filter(|(_, joint)| {
            joint.verb.lasts() && holds[joint.male.part] && holds[joint.female.part]
        });
        if !among.all(|(id, _)| self.alike[id]) {
            return None;
        }
        let before = &self.earlier.assembly.joints[id];
        let held_by = before.verdict.held_by.iter().copied();
        Some(AtRest {
            verdict: Verdict {
                held_by: held_by
                    .filter(|it| !matches!(it, HeldBy::Ring { .. }))
                    .collect(),
                ..Verdict::default()
            },
            ..before.clone()
        })
    }
}

/// Whether all that is said of a joint, and that decides where it comes to rest, is said of the other.
fn rests_as(one: &Joint, other: &Joint) -> bool {
    let thread = |it: &Joint| it.with.as_ref().map(|with| with.thread);
    let seat = |it: &Joint| {
        let seat = it.seat.as_ref()?;
        Some([&seat.first, &seat.second].map(|face| (face.part, face.at)))
    };
    (one.span, one.verb, one.male, one.female) == (other.span, other.verb, other.male, other.female)
        && (&one.through, one.by, one.asks, one.snap)
            == (&other.through, other.by, other.asks, other.snap)
        && (thread(one), seat(one)) == (thread(other), seat(other))
}

/// Whether a joint came to rest where it does now.
fn came_to(before: &AtRest, now: &SeatedJoint) -> bool {
    let lie = |members: &[Member], before: &[(PartId, Placement)]| {
        members
            .iter()
            .map(|it| (it.part, it.place))
            .eq(before.iter().copied())
    };
    !before.redundant
        && before.goes_in_mm == now.goes_in_mm
        && before.short_mm == now.short_mm()
        && before.stopped_by == now.stopped_by
        && before.touches == now.touches
        && before.trapped == now.trapped
        && lie(&now.males, &before.males)
        && lie(&now.females, &before.females)
}

#[cfg(test)]
mod tests {
    use super::super::Assembly;
    use crate::{Design, Texts, load, resolve};
    use quillet_fixture::{EXAMPLES, MORE_EXAMPLES};
    use std::path::Path;
    use std::sync::Arc;

    const MADE: &str = include_str!("../../../../../examples/made/dunlin-1.quillet");

    fn design(name: &str) -> Design {
        let texts = EXAMPLES.iter().chain(&MORE_EXAMPLES);
        let texts = texts.fold(Texts::default(), |texts, (name, text)| {
            texts.with(*name, &text.replace("\"../", "\""))
        });
        let made = MADE.replace("\"../more/", "\"").replace("\"../", "\"");
        let texts = texts.with("made.quillet", &made);
        resolve(&load(Path::new(name), &texts).expect("it is there"))
    }

    /// Pens that are like others, and one that was made: beside what comes out where nothing is taken over.
    #[test]
    fn what_is_taken_over_is_what_would_be_worked_out() {
        let names = EXAMPLES.iter().chain(&MORE_EXAMPLES).map(|it| it.0);
        for name in names.chain(["made.quillet"]) {
            let design = design(name);
            for pen in &design.pens {
                let known = |name: &str| design.part(name).cloned();
                let anew = Assembly::of(pen, 0.0, &known, None);
                assert_eq!(anew.joints, pen.assembly.joints, "{}", pen.name.text);
            }
        }
    }

    /// Heron for Ida has another section, and each of its joints holds that; the section of the Dunlin that was made
    /// is not cut yet, and its nib is in it as it is drawn.
    #[test]
    fn what_no_part_of_moves_is_taken_over() {
        for (name, pens, kept) in [
            ("heron.quillet", ["heron", "heron-ida"], vec![]),
            ("made.quillet", ["dunlin", "dunlin-1"], vec![0]),
        ] {
            let design = design(name);
            let [one, other] = pens.map(|it| &design.pen(it).expect("it is there").assembly.joints);
            let same =
                |id: &crate::JointId| Arc::ptr_eq(&one[*id].clearances, &other[*id].clearances);
            let found: Vec<usize> = one.ids().filter(same).map(|it| it.index()).collect();
            assert_eq!(found, kept, "{name}");
        }
    }
}
