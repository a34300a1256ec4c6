//! In which order the joints of a pen are made: the text never says.

use super::group::Groups;
use super::settle::{Bodies, SeatedJoint, StoppedBy};
use crate::{Joint, JointId, PartId};
use quillet_geometry::put_in_order;
use quillet_syntax::ast::Verb;
use std::rc::Rc;

/// Makes the joints of the open pen, those first that do not give: what slips against a spring places
/// nothing where others place its two parts.
pub(crate) fn made(
    bodies: &Bodies,
    joints: &[(JointId, &Joint)],
) -> (Groups, Vec<(JointId, SeatedJoint)>) {
    let apart = || Groups::apart(bodies.parts.len());
    let springs = |part: &PartId| bodies.parts[*part].length_free > bodies.parts[*part].length;
    let gives = |joint: &Joint| joint.verb == Verb::Slip && joint.through.iter().any(springs);
    if !joints.iter().any(|(_, joint)| gives(joint)) {
        return make(bodies, joints, apart());
    }
    let rigid: Vec<_> = joints.iter().copied().filter(|it| !gives(it.1)).collect();
    let (open, made) = make(bodies, &rigid, apart());
    let placed = |joint: &Joint| open.joined(joint.male.part, joint.female.part);
    let placing = |it: &(JointId, &Joint)| !gives(it.1) || !placed(it.1);
    let placing: Vec<_> = joints.iter().copied().filter(placing).collect();
    match placing.len() == rigid.len() {
        true => (open, made),
        false => make(bodies, &placing, apart()),
    }
}

/// Makes the joints one after the other: the groups they make, and the joints in the order made,
/// each with where it came to rest.
///
/// The order is the one in which all go in furthest: a converter is pushed on after the nib unit is
/// in its section, since with it the nib unit would not go in at all.
///
/// Joints between parts that are joined already are left out. Parts' names break ties, so that the
/// order of the text says nothing.
fn make(
    bodies: &Bodies,
    joints: &[(JointId, &Joint)],
    groups: Groups,
) -> (Groups, Vec<(JointId, SeatedJoint)>) {
    let joints: Vec<PendingJoint> = joints
        .iter()
        .map(|(index, joint)| PendingJoint {
            index: *index,
            joint,
            alone: bodies.alone(joint),
        })
        .collect();
    let name = |part: PartId| &bodies.parts[part].name.text;
    let mut joints: Vec<&PendingJoint> = joints.iter().collect();
    joints.sort_by_key(|it| {
        (
            name(it.joint.male.part),
            name(it.joint.female.part),
            it.index,
        )
    });
    let mut search = OrderSearch {
        bodies,
        best: None,
        tries: MOST_TRIES,
    };
    let made = JointSequence {
        groups,
        last: None,
        short_mm: 0.0,
    };
    search.go(&joints, made.clone());
    search.best.unwrap_or(made).taken_down()
}

/// Joints made, the one made last first; orders that begin alike share how they begin.
#[derive(Clone)]
struct JointSequence {
    groups: Groups,
    last: Option<Rc<Step>>,
    /// How much all of them together stop short of where each would come with its two parts alone.
    short_mm: f64,
}

#[derive(Clone)]
struct Step {
    joint: JointId,
    settled: SeatedJoint,
    before: Option<Rc<Step>>,
}

impl JointSequence {
    /// The joints in the order made.
    fn taken_down(self) -> (Groups, Vec<(JointId, SeatedJoint)>) {
        let mut steps = Vec::new();
        let mut last = self.last;
        while let Some(step) = last {
            let step = Rc::unwrap_or_clone(step);
            steps.push((step.joint, step.settled));
            last = step.before;
        }
        steps.reverse();
        (self.groups, steps)
    }
}

/// A joint still to be made.
struct PendingJoint<'j> {
    index: JointId,
    joint: &'j Joint,
    /// Where it comes to rest with its two parts alone.
    alone: SeatedJoint,
}

impl PendingJoint<'_> {
    /// Where it comes to rest with all that is joined to its two parts.
    fn settled(&self, bodies: &Bodies, groups: &Groups) -> SeatedJoint {
        let [male, female] = [self.joint.male.part, self.joint.female.part];
        match groups.is_alone(male) && groups.is_alone(female) {
            true => self.alone.clone(),
            false => bodies.settle(self.joint, groups, Some(self.alone.goes_in_mm)),
        }
    }

    /// How many parts that it is to trap find nothing yet to lie against.
    fn untrapped(&self, groups: &Groups, settled: &SeatedJoint) -> usize {
        let joint = self.joint;
        let held = |part: PartId| {
            groups.joined(part, joint.male.part)
                || groups.joined(part, joint.female.part)
                || settled.stacked.iter().any(|(stacked, _)| *stacked == part)
        };
        joint.through.iter().filter(|part| !held(**part)).count()
    }
}

/// What closes a space comes before what is laid in it: a part that is to be trapped and meets
/// nothing is worse than any joint that stops short, mm.
const LOST_MM: f64 = 1_000.0;

/// A joint that is set level is a little worse than one that something stops, mm.
const LEVEL_MM: f64 = 0.001;

struct OrderSearch<'b, 'p> {
    bodies: &'b Bodies<'p>,
    best: Option<JointSequence>,
    /// A pen of many joints that do not go together is not tried in every order.
    tries: usize,
}

const MOST_TRIES: usize = 600;
/// Joints that stop short by less than this, mm, hinder each other nowhere.
const NOTHING: f64 = 1e-6;

impl OrderSearch<'_, '_> {
    fn go(&mut self, left: &[&PendingJoint], made: JointSequence) {
        let left: Vec<&PendingJoint> = left
            .iter()
            .filter(|it| !made.groups.joined(it.joint.male.part, it.joint.female.part))
            .copied()
            .collect();
        if left.is_empty() {
            if self
                .best
                .as_ref()
                .is_none_or(|best| made.short_mm < best.short_mm - NOTHING)
            {
                self.best = Some(made);
            }
            return;
        }
        let mut stopping_short: Vec<(f64, &PendingJoint, SeatedJoint)> = Vec::new();
        for &wanted in &left {
            if self.cannot_be_better(made.short_mm) {
                return;
            }
            self.tries = self.tries.saturating_sub(1);
            let settled = wanted.settled(self.bodies, &made.groups);
            let short_mm = (wanted.alone.goes_in_mm - settled.goes_in_mm).max(0.0);
            let short_mm = short_mm + wanted.untrapped(&made.groups, &settled) as f64 * LOST_MM;
            // What others may stop waits for them.
            let level = settled.stopped_by == StoppedBy::Level;
            let short_mm = short_mm + if level { LEVEL_MM } else { 0.0 };
            // What goes in all the way comes before all that does not.
            if short_mm == 0.0 {
                self.follow(&left, &made, wanted, settled, short_mm);
            } else {
                stopping_short.push((short_mm, wanted, settled));
            }
        }
        put_in_order(&mut stopping_short, |it| it.0);
        for (short_mm, wanted, settled) in stopping_short {
            self.follow(&left, &made, wanted, settled, short_mm);
        }
    }

    /// Makes this joint next.
    fn follow(
        &mut self,
        left: &[&PendingJoint],
        made: &JointSequence,
        wanted: &PendingJoint,
        settled: SeatedJoint,
        short_mm: f64,
    ) {
        let short_mm = made.short_mm + short_mm;
        if self.cannot_be_better(short_mm) {
            return;
        }
        let mut groups = made.groups.clone();
        settled.join(wanted.joint, &mut groups);
        let step = Step {
            joint: wanted.index,
            settled,
            before: made.last.clone(),
        };
        let rest: Vec<&PendingJoint> = left
            .iter()
            .filter(|it| it.index != wanted.index)
            .copied()
            .collect();
        let made = JointSequence {
            groups,
            last: Some(Rc::new(step)),
            short_mm,
        };
        self.go(&rest, made);
    }

    /// Whether an order that already stops short by so much is left untried.
    fn cannot_be_better(&self, short_mm: f64) -> bool {
        self.best
            .as_ref()
            .is_some_and(|best| self.tries == 0 || short_mm >= best.short_mm - NOTHING)
    }
}
