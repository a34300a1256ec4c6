//! One joint: how far the male goes into the female, and what stops it.

use super::contact::{Member, OwnContact, RawContact, TOUCHING_MM, Touch, meeting, meetings};
use super::group::Groups;
use super::outline::Outline;
use super::surface::Surface;
use super::threads::{mated, meant};
use super::{MatedThreads, Placement};
use crate::{ById, CutId, FitRequest, Hand, Joint, JointEnd, PartId, Parts};
use quillet_geometry::Length;
use quillet_standards::fit::Fit;
use quillet_syntax::ast::Verb;
use std::cell::RefCell;
use std::sync::Arc;

/// Parts with their outlines, worked out once for a pen.
pub(crate) struct Bodies<'a> {
    pub(crate) parts: &'a Parts,
    /// The part that writes, once it is known how the open pen lies.
    pub(crate) nib: Option<PartId>,
    /// How closely each is made.
    pub(crate) hands: &'a ById<PartId, Hand>,
    outlines: ById<PartId, Arc<Outline>>,
    /// Outlines with some threads at their roots, as they are asked for.
    cored: RefCell<Vec<RootOutline>>,
}

/// A part's outline with the threads of these features at their roots.
struct RootOutline {
    part: PartId,
    threads: Vec<CutId>,
    outline: Arc<Outline>,
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
        let outlines = parts
            .iter()
            .map(|part| Arc::new(Outline::of(part, &[])))
            .collect();
        Bodies {
            parts,
            nib: None,
            hands,
            outlines,
            cored: RefCell::default(),
        }
    }

    /// A part's surface, asked for how it moves.
    pub(crate) fn surface(&self, part: PartId) -> Surface<'a> {
        Surface::crests(&self.parts[part], part)
    }

    /// A part's outline with the threads of these features at their roots.
    fn cored(&self, part: PartId, threads: &[CutId]) -> Arc<Outline> {
        let known = |it: &&RootOutline| it.part == part && it.threads == threads;
        if let Some(it) = self.cored.borrow().iter().find(known) {
            return it.outline.clone();
        }
        let outline = Arc::new(Outline::of(&self.parts[part], threads));
        self.cored.borrow_mut().push(RootOutline {
            part,
            threads: threads.to_vec(),
            outline: outline.clone(),
        });
        outline
    }

    /// How far a joint goes in with its two parts alone, mm.
    pub(crate) fn alone_mm(&self, joint: &Joint) -> f64 {
        let apart = Groups::apart(self.parts.len());
        self.settle(joint, &apart, None).goes_in_mm
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

    /// A part laid with its first end against the female's side, as far in as it goes.
    fn stack(&self, part: PartId, females: &[Member]) -> Option<(Member, RawContact)> {
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
    fn room(&self, males: &[Member], trapped: &Member, own: OwnContact) -> Trapped {
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
        &self.outlines[part]
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
        let outline = self.outlines[part].clone();
        let cored = cored.map(|threads| self.cored(part, threads));
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

#[derive(Clone, Copy)]
enum ContactSide {
    Male,
    Female,
}

/// How deep the male lies, what decides it and what it touches.
fn rest(joint: &Joint, parts: &Parts, met: Vec<RawContact>) -> (f64, StoppedBy, Vec<Touch>) {
    let contact = met.first().map(|it| it.travel_mm);
    let by = joint.by.map(|(by, _)| by.to_mm());
    match (joint.verb, contact, by) {
        // The cap is pushed on past its first touch.
        (Verb::Post, Some(contact), by) => {
            let touches = met.into_iter().map(|it| it.touch).collect();
            let by = by.unwrap_or(0.0);
            let stopped = if by > 0.0 {
                StoppedBy::Overlap
            } else {
                StoppedBy::Contact
            };
            (contact + by, stopped, touches)
        }
        (_, Some(contact), Some(by)) if by < contact - TOUCHING_MM => {
            (by, StoppedBy::Overlap, Vec::new())
        }
        (_, Some(contact), _) => {
            let touches = met.into_iter().map(|it| it.touch).collect();
            (contact, StoppedBy::Contact, touches)
        }
        (_, None, Some(by)) => (by, StoppedBy::Overlap, Vec::new()),
        // What is glued in goes no further than the bench it is set down on.
        (Verb::Glue | Verb::Press, None, None) => {
            let male = &parts[joint.male.part];
            (male.length.to_mm(), StoppedBy::Level, Vec::new())
        }
        (_, None, None) => {
            let female = &parts[joint.female.part];
            (female.length.to_mm(), StoppedBy::Nothing, Vec::new())
        }
    }
}

/// Whether what is pushed goes in where nothing is drawn: into a bought part of which only the
/// outside is said, and which is fatter than what goes in.
fn takes_up(joint: &Joint, parts: &Parts) -> bool {
    let (male, female) = (&parts[joint.male.part], &parts[joint.female.part]);
    let undrawn = female.is_bought() && !female.features.iter().any(crate::Feature::is_inside);
    let outside_mm = |part: &crate::Part, end: JointEnd| {
        let at = part.station(end.end, Length::ZERO).to_mm();
        part.profiles.as_ref()?.crest.outer.greatest_at(at)
    };
    let sizes = outside_mm(male, joint.male).zip(outside_mm(female, joint.female));
    undrawn && sizes.is_some_and(|(inner, outer)| inner < outer)
}

/// What a press or a push squeezes past, in radius: the interference it asks for, else a push's
/// give (common practice, no published source).
fn squeezed_mm(joint: &Joint, parts: &Parts) -> f64 {
    if let Some((overlap, _)) = joint.snap {
        return (overlap.to_mm() + SNAP_GIVE_MM) / 2.0;
    }
    let on_diameter = match (&joint.asks, joint.verb) {
        (Some((FitRequest::Interference(size), _)), _) => size.to_mm(),
        (Some((FitRequest::Fit(fit), _)), _) => most_interference_mm(fit, joint, parts),
        (_, Verb::Push) => PUSH_GIVE_MM,
        (_, Verb::Press) => PRESS_GIVE_MM,
        (_, Verb::Close) if mated(joint, parts).is_empty() => CLOSE_GIVE_MM,
        _ => 0.0,
    };
    on_diameter / 2.0
}

/// How much fatter than its mouth a heel may be that is pushed into it, on diameter.
const PUSH_GIVE_MM: f64 = 0.4;
/// As much for a press that asks for nothing.
const PRESS_GIVE_MM: f64 = 0.05;

/// As much for a plain cap: what can still be pushed on, however stiffly.
const CLOSE_GIVE_MM: f64 = 0.1;
/// What a snap passes over the overlap that it asks for, so that one drawn a little larger is told
/// of as such.
const SNAP_GIVE_MM: f64 = 0.05;

/// The most interference of a fit at the female's size, on diameter.
fn most_interference_mm(fit: &Fit, joint: &Joint, parts: &Parts) -> f64 {
    let female = &parts[joint.female.part];
    let Some(profiles) = &female.profiles else {
        return 0.0;
    };
    let at = female.station(joint.female.end, Length::ZERO).to_mm();
    let dia = Length::mm(2.0 * profiles.crest.bore_radius(at));
    fit.at(dia)
        .map_or(0.0, |limits| (-limits.clearance.min().to_mm()).max(0.0))
}

impl SeatedJoint {
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
