//! What is trapped between two parts, and how far a spring is pressed.

use super::super::Placement;
use super::super::contact::{Member, OwnContact, RawContact, meeting, meetings};
use super::super::group::Groups;
use super::Bodies;
use super::rest::ContactSide;
use crate::{Joint, PartId};

/// A part trapped between the two of a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trapped {
    /// The part.
    pub part: PartId,
    /// The length it takes up, mm; of a spring, as far as it is pressed together.
    pub length_mm: f64,
    /// The room that it leaves, mm; a spring that is not pressed leaves some.
    pub room_mm: f64,
}

impl<'a> Bodies<'a> {
    /// A part laid with its first end against the female's side, as far in as it goes.
    pub(super) fn stack(&self, part: PartId, females: &[Member]) -> Option<(Member, RawContact)> {
        let place = Placement::leading(&self.parts[part], crate::End::First);
        let member = self.member(part, place, None, false, 0.0);
        let met = meetings(
            self.parts,
            std::slice::from_ref(&member),
            females,
            OwnContact::Counts,
            0.0,
        );
        let first = met.into_iter().next()?;
        Some((member.moved(first.travel_mm), first))
    }

    /// The room a trapped part has between the two.
    pub(super) fn room(&self, males: &[Member], trapped: &Member, own: OwnContact) -> Trapped {
        let part = &self.parts[trapped.part];
        let reach = |male: &Member| meeting(self.parts, male, trapped, own).map(|it| it.travel_mm);
        let spare = males
            .iter()
            .filter_map(reach)
            .fold(f64::INFINITY, f64::min)
            .max(0.0);
        let (least, free) = (part.length.to_mm(), part.length_free.to_mm());
        Trapped {
            part: trapped.part,
            length_mm: (least + spare).min(free),
            room_mm: (spare - (free - least)).max(0.0),
        }
    }

    /// The springs that a joint holds between two parts which others have placed: each with its place
    /// on their group's axis. What is left for one may be less than its least length.
    /// Those in `standing` stand there already and are asked again how they are pressed.
    pub(crate) fn sprung(
        &self,
        joint: &Joint,
        groups: &Groups,
        standing: &[Trapped],
    ) -> Vec<(Placement, Trapped)> {
        let apart = Groups::apart(self.parts.len());
        let own = self.own(joint);
        let mut females = self.members(joint, &apart, joint.female, ContactSide::Female);
        let mut males = self.members(joint, &apart, joint.male, ContactSide::Male);
        let here = Placement::inward(&self.parts[joint.female.part], joint.female.end);
        let axis = groups.place(joint.female.part).inverse().then(here);
        for male in &mut males {
            male.place = groups.place(joint.male.part).then(axis);
        }
        let mut springs = Vec::new();
        for part in &joint.through {
            let (least, free) = (self.parts[*part].length, self.parts[*part].length_free);
            let stands = standing.iter().any(|it| it.part == *part);
            if free <= least || !stands && groups.joined(*part, joint.female.part) {
                continue;
            }
            let Some((member, _)) = self.stack(*part, &females) else {
                continue;
            };
            let spare = males
                .iter()
                .filter_map(|male| Some(meeting(self.parts, male, &member, own)?.travel_mm));
            let spare = spare.fold(f64::INFINITY, f64::min);
            let (least, free) = (least.to_mm(), free.to_mm());
            if spare.is_finite() {
                let trapped = Trapped {
                    part: *part,
                    length_mm: (least + spare).clamp(0.0, free),
                    room_mm: (spare - (free - least)).max(0.0),
                };
                springs.push((member.place.then(axis.inverse()), trapped));
            }
            females.push(member);
        }
        springs
    }
}
