//! Parts that are joined before they are turned and all have an outside: it is turned as one.

mod cuts;
mod seen;
mod shape;

use super::Pen;
use crate::{ById, CutId, End, JointId, Part, PartId, Placement, SideId};
use quillet_geometry::Length;
use std::sync::Arc;

/// Of each thing that is cut of a work, the part it is cut of and its number there.
pub type Whose<I> = ById<I, (PartId, I)>;

/// Parts whose outsides are turned as one.
#[derive(Clone, Debug)]
pub struct AsOne {
    /// The longest, which carries the others; then the others, in the order in which they are joined to what is
    /// there.
    pub members: Vec<AsOneMember>,
    /// All of it as one part, with what is left to be cut of it: its outside, and at its two ends what is
    /// there to hold it by.
    pub part: Arc<Part>,
    /// Of each cut of that, whose it is.
    pub cuts: Whose<CutId>,
    /// The same of what is cut from the side.
    pub sides: Whose<SideId>,
}

/// One of them.
#[derive(Clone, Debug, PartialEq)]
pub struct AsOneMember {
    /// The part.
    pub part: PartId,
    /// Its name.
    pub name: Arc<str>,
    /// Its place along the work.
    pub place: Placement,
    /// The joint that brings it in; none of what carries the others.
    pub joint: Option<JointId>,
    /// That joint holds it between its two parts: it goes over the one that goes in.
    pub between: bool,
}

/// Faces nearer than this are level, mm.
const LEVEL_MM: f64 = 1e-3;

impl AsOne {
    /// Which end of one of them is level with an end of the work, if any.
    pub fn level(&self, member: &AsOneMember, part: &Part, end: End) -> Option<End> {
        let face = self.part.station(end, Length::ZERO).to_mm();
        level(member, part, face)
    }
}

impl Pen {
    /// The works that are joined before they are turned, and of which more than one part has an outside.
    ///
    /// Not among them is what cannot be turned as one: what is bought, what has no place, or a cut outside
    /// that the others hide.
    pub fn turned_as_one(&self) -> Vec<AsOne> {
        let mut found: Vec<AsOne> = Vec::new();
        for (id, joint) in self.joints.with_ids() {
            let [male, female] = [joint.male.part, joint.female.part];
            let stands_out = joint.before_turning.is_some() && self.lining(id).is_none();
            let known = |it: &AsOne| {
                it.members
                    .iter()
                    .any(|it| [male, female].contains(&it.part))
            };
            if !stands_out || found.iter().any(known) {
                continue;
            }
            found.extend(self.placed(male).and_then(|it| self.as_one(it)));
        }
        found
    }

    fn as_one(&self, members: Vec<AsOneMember>) -> Option<AsOne> {
        let (part, cuts) = shape::part(self, &members)?;
        let sides = members.iter().flat_map(|it| {
            let own = 0..self.parts[it.part].sides().len();
            own.map(|at| (it.part, SideId::nth(at)))
        });
        Some(AsOne {
            part: Arc::new(part),
            cuts,
            sides: sides.collect(),
            members,
        })
    }

    /// All that is joined before turning to a part, what is held between with it, linings left out, each in its
    /// place; none where any of it has none, or is bought.
    fn placed(&self, one: PartId) -> Option<Vec<AsOneMember>> {
        let all = self.joined_to(one)?;
        let lines = |part: PartId| {
            let mut own = self.joints.with_ids().filter(|it| it.1.male.part == part);
            own.any(|(id, _)| self.lining(id).is_some())
        };
        let shown = all.iter().filter(|it| !it.between && !lines(it.part));
        let carrier = shown
            .map(|it| it.part)
            .max_by_key(|it| (self.parts[*it].length, std::cmp::Reverse(*it)))?;
        let mut all = self.joined_to(carrier)?;
        all.retain(|it| !lines(it.part));
        let ends = all.iter().flat_map(|it| {
            let length = self.parts[it.part].length.to_mm();
            [it.place.of(0.0), it.place.of(length)]
        });
        let first = ends.reduce(f64::min)?;
        for it in &mut all {
            it.place = it.place.moved(-first);
        }
        (all.len() > 1).then_some(all)
    }

    /// A part, and what is joined to it before turning, one after the other, on its stations; none where any of
    /// it has no place, or is bought.
    fn joined_to(&self, first: PartId) -> Option<Vec<AsOneMember>> {
        let mut all = vec![AsOneMember {
            part: first,
            name: self.parts[first].name.text.clone(),
            place: Placement::HERE,
            joint: None,
            between: false,
        }];
        loop {
            let place = |part: PartId| all.iter().find(|it| it.part == part).map(|it| it.place);
            let mut joints = self.joints.with_ids();
            let next = joints.find_map(|(id, joint)| {
                joint.before_turning?;
                let [male, female] = [joint.male.part, joint.female.part];
                match (place(male), place(female)) {
                    (Some(there), None) => Some((id, male, female, there)),
                    (None, Some(there)) => Some((id, female, male, there)),
                    _ => None,
                }
            });
            let Some((joint, known, part, there)) = next else {
                return Some(all);
            };
            let rest = self.assembly.joints.get(joint)?;
            let axis = rest.place(known)?.inverse().then(there);
            let between = rest.trapped.iter().map(|it| (it.part, true));
            for (part, between) in between.chain([(part, false)]) {
                let again = all.iter().any(|it| it.part == part);
                if rest.redundant || again || self.parts[part].is_bought() {
                    return None;
                }
                all.push(AsOneMember {
                    part,
                    name: self.parts[part].name.text.clone(),
                    place: rest.place(part)?.then(axis),
                    joint: Some(joint),
                    between,
                });
            }
        }
    }
}

fn level(member: &AsOneMember, part: &Part, face_mm: f64) -> Option<End> {
    let near = |own: &End| {
        let at = part.station(*own, Length::ZERO).to_mm();
        (member.place.of(at) - face_mm).abs() <= LEVEL_MM
    };
    [End::First, End::Second].into_iter().find(near)
}
