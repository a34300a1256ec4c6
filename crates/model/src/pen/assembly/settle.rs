//! One joint: how far the male goes into the female, and what stops it.

mod rest;
mod stacked;

use super::contact::{Member, OwnContact, RawContact, TOUCHING_MM, Touch, meetings};
use super::group::Groups;
use super::surface::Surface;
use super::threads::{mated, meant};
use super::{MatedThreads, Placement, Pocketed};
use crate::outline::Outline;
use crate::{ById, CutId, Hand, Joint, JointEnd, PartId, Parts};
use quillet_syntax::ast::Verb;
use rest::{ContactSide, rest, squeezed_mm, takes_up};
pub use stacked::Trapped;
use std::sync::Arc;

/// The parts of a pen while it is put together.
pub(crate) struct Bodies<'a> {
    pub(crate) parts: &'a Parts,
    /// The part that writes, once it is known how the open pen lies.
    pub(crate) nib: Option<PartId>,
    /// How closely each is made.
    pub(crate) hands: &'a ById<PartId, Hand>,
    /// What sits in their pockets.
    pub(crate) pockets: Vec<Pocketed>,
}

/// What stops a male.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StoppedBy {
    /// It touches.
    Contact,
    /// The overlap that is written (`by L`).
    Overlap,
    /// Nothing: it is glued or pressed in until its rear face is level with the other's.
    Level,
    /// Nothing: it would slide right through.
    Nothing,
}

/// A joint at rest, on its own axis: zero at the female's face, inward positive.
#[derive(Clone, Debug)]
pub(crate) struct SeatedJoint {
    pub(crate) goes_in_mm: f64,
    /// How far it would go with its two parts alone, mm.
    pub(crate) alone_mm: f64,
    pub(crate) stopped_by: StoppedBy,
    pub(crate) touches: Vec<Touch>,
    /// What touches first.
    pub(crate) stop: Option<RawContact>,
    pub(crate) trapped: Vec<Trapped>,
    /// What is trapped, each with what it lies against on its way in.
    pub(crate) stacked: Vec<(PartId, RawContact)>,
    /// Both groups at rest, with what is trapped, made one.
    pub(crate) males: Vec<Member>,
    pub(crate) females: Vec<Member>,
    pub(crate) own: OwnContact,
    pub(crate) mated: Vec<MatedThreads>,
}

/// Where a joint has a male part and a female part; and which parts go with each.
impl<'a> Bodies<'a> {
    pub(crate) fn new(parts: &'a Parts, hands: &'a ById<PartId, Hand>) -> Self {
        Bodies {
            parts,
            nib: None,
            hands,
            pockets: Vec::new(),
        }
    }

    /// A part's surface, asked for how it moves.
    pub(crate) fn surface(&self, part: PartId) -> Surface<'a> {
        Surface::crests(&self.parts[part], part)
    }

    /// Where a joint comes to rest with its two parts alone.
    pub(crate) fn alone(&self, joint: &Joint) -> SeatedJoint {
        let apart = Groups::apart(self.parts.len());
        self.settle(joint, &apart, None)
    }

    /// The rest position of a joint between two groups.
    ///
    /// `alone_mm` is how far it goes with its two parts alone, where that is known.
    pub(crate) fn settle(
        &self,
        joint: &Joint,
        groups: &Groups,
        alone_mm: Option<f64>,
    ) -> SeatedJoint {
        let own = self.own(joint);
        let mut females = self.members(joint, groups, joint.female, ContactSide::Female);
        let males = self.members(joint, groups, joint.male, ContactSide::Male);
        let (mut trapped, mut stacked) = (Vec::new(), Vec::new());
        for part in &joint.through {
            if groups.joined(*part, joint.male.part) || groups.joined(*part, joint.female.part) {
                continue;
            }
            let Some((member, met)) = self.stack(*part, &females) else {
                continue;
            };
            trapped.push(females.len());
            females.push(member);
            stacked.push((*part, met));
        }
        let met = meetings(self.parts, &males, &females, own, TOUCHING_MM);
        let stop = met.first().copied();
        let (goes_in_mm, stopped_by, touches) = rest(joint, self.parts, met);
        let mut males = males;
        males
            .iter_mut()
            .for_each(|it| it.place = it.place.moved(goes_in_mm));
        let trapped = trapped
            .iter()
            .map(|index| self.room(&males, &females[*index], own))
            .collect();
        let mated = mated(joint, self.parts);
        SeatedJoint {
            goes_in_mm,
            alone_mm: alone_mm.unwrap_or(goes_in_mm),
            stopped_by,
            touches,
            stop,
            trapped,
            stacked,
            males,
            females,
            own,
            mated,
        }
    }

    /// What made a piece of a part's profile.
    pub(crate) fn origin(&self, part: PartId, tag: quillet_geometry::Tag) -> crate::Origin {
        let profiles = self.parts[part].profiles.as_ref();
        profiles.map_or(crate::Origin::Axis, |it| it.origin(tag))
    }

    /// Whether a part is what writes and is set by hand, so that its reach is never quite sure; what
    /// holds its own ink is as measured.
    pub(crate) fn is_nib(&self, part: PartId) -> bool {
        self.nib == Some(part) && self.parts[part].holds_ml().is_none()
    }

    /// A part's outline on its own stations.
    pub(crate) fn outline(&self, part: PartId) -> &Outline {
        self.parts[part].outline()
    }

    fn own(&self, joint: &Joint) -> OwnContact {
        match joint.verb {
            Verb::Push if takes_up(joint, self.parts) => OwnContact::Passes,
            _ if mated(joint, self.parts).is_empty() && !meant(joint, self.parts).is_empty() => {
                OwnContact::Mismatched
            }
            _ => OwnContact::Counts,
        }
    }

    fn members(
        &self,
        joint: &Joint,
        groups: &Groups,
        end: JointEnd,
        side: ContactSide,
    ) -> Vec<Member> {
        let part = &self.parts[end.part];
        let here = match side {
            ContactSide::Male => Placement::leading(part, end.end),
            ContactSide::Female => Placement::inward(part, end.end),
        };
        let axis = groups.place(end.part).inverse().then(here);
        let pairs = meant(joint, self.parts);
        let cored: Vec<CutId> = pairs
            .iter()
            .map(|pair| match side {
                ContactSide::Male => pair.male,
                ContactSide::Female => pair.female,
            })
            .collect();
        let squeeze = match side {
            ContactSide::Male => squeezed_mm(joint, self.parts),
            ContactSide::Female => 0.0,
        };
        groups
            .with(end.part)
            .map(|other| {
                let own = other == end.part;
                let cored = (own && !cored.is_empty()).then_some(&*cored);
                let squeeze = if own { squeeze } else { 0.0 };
                self.member(other, groups.place(other).then(axis), cored, own, squeeze)
            })
            .collect()
    }

    fn member(
        &self,
        part: PartId,
        place: Placement,
        cored: Option<&[CutId]>,
        own: bool,
        squeeze_mm: f64,
    ) -> Member {
        let outline = self.parts[part].outline().clone();
        let cored = cored.map(|threads| self.parts[part].cored_outline(threads));
        let squeezed = (squeeze_mm > 0.0).then(|| Arc::new(outline.shrunk(squeeze_mm)));
        Member {
            part,
            place,
            outline,
            cored,
            squeezed,
            own,
        }
    }
}

impl SeatedJoint {
    /// How much further its two parts would go by themselves, mm.
    pub(crate) fn short_mm(&self) -> f64 {
        (self.alone_mm - self.goes_in_mm).max(0.0)
    }

    /// Whether a part only goes with one of the joint's own two.
    pub(crate) fn carries(&self, part: PartId) -> bool {
        let mut members = self.males.iter().chain(&self.females);
        members.any(|it| it.part == part && !it.own)
    }

    /// Makes one group of all that the joint brings together.
    pub(crate) fn join(&self, joint: &Joint, groups: &mut Groups) {
        // What one part of a group is laid to, all of it is.
        let stacked = |member: &&Member| self.stacked.iter().any(|it| it.0 == member.part);
        let members = || {
            let members = self.males.iter().chain(&self.females);
            members.filter(|it| it.own || stacked(it))
        };
        for member in members() {
            groups.lay(member.part, member.place);
        }
        for member in members() {
            groups.merge(joint.female.part, member.part);
        }
    }
}
