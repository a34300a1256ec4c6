//! Threads that mate in a joint, and how they are engaged when it is at rest.

use super::Placement;
use super::clock::{ThreadStart, marks_apart};
use super::travel::lets_go_mm;
use crate::{CutId, End, Joint, Origin, Part, Parts, Solid};
use quillet_geometry::{Angle, Chain, Length, Tag, put_in_order};
use quillet_standards::thread::ThreadForm;
use quillet_syntax::ast::{Side, Verb};

/// A male and a female thread of one designation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MatedThreads {
    /// On the male part.
    pub male: CutId,
    /// On the female part.
    pub female: CutId,
}

/// The turn that a shoulder's cut is told for.
pub const TEN_DEGREES: Angle = Angle::from_nanodeg(10_000_000_000);

/// How a male and a female thread are engaged at rest.
///
/// In the overlap, which bears load, only full thread counts: what a chamfer or a countersink takes
/// of it does not. In the travel every crest counts that still reaches behind another. The lead-in
/// of tap and die lies outside of what a `thread` line says; whether the tools of a bench get that
/// far is for the checker to say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Engagement {
    /// Which threads.
    pub threads: MatedThreads,
    /// The thread, as the male has it.
    pub form: ThreadForm,
    /// How much full form of one lies in that of the other, mm; less than nothing where they never
    /// reach each other.
    pub overlap_mm: f64,
    /// How far the male comes out before the threads let go, mm: until the crests, as edges and
    /// countersinks leave them, no longer overlap. Less than nothing where they never reach each
    /// other.
    pub travel_mm: f64,
    /// How far in the male thread's leading edge lies, from the female's face, mm.
    pub leading_mm: f64,
    /// How far in the female thread begins, from the female's face, mm.
    pub mouth_mm: f64,
    /// How much female thread is left ahead of the male's leading edge, mm.
    pub ahead_mm: f64,
    /// How far the male's mark comes to rest clockwise of the female's, looking in at the female's
    /// face: less than the spacing of the starts, since any of them may have been caught. None where
    /// one of both threads does not say where it begins.
    pub marks_apart: Option<Angle>,
}

impl Engagement {
    /// Turns until the threads let go: release travel over lead.
    pub fn turns(&self) -> f64 {
        self.travel_mm / self.form.lead_mm()
    }

    /// Within so much of a turn one start finds another.
    pub fn catches_within(&self) -> Angle {
        self.form.start_spacing()
    }

    /// The ways round in which the male can come to rest: one for each start.
    pub fn clock_positions(&self) -> u32 {
        self.form.starts()
    }

    /// What must come off a shoulder for the joint to come to rest this much further round.
    pub fn shoulder_cut(&self, turn: Angle) -> Length {
        Length::mm(self.form.lead_mm() * turn.to_deg() / 360.0)
    }
}

/// The threads of a joint that mate: the male part's outside ones and the female part's inside
/// ones that are one thread, wherever on the parts they are; only that of `with`, where it is said.
///
/// A joint that is pushed, pressed, glued or slipped engages no thread. A cap is posted by threads
/// that are cut from the ends it names: those of the mouth are none of the tail's.
pub(crate) fn mated(joint: &Joint, parts: &Parts) -> Vec<MatedThreads> {
    if !matches!(joint.verb, Verb::Screw | Verb::Close | Verb::Post) {
        return Vec::new();
    }
    let from = |end: crate::JointEnd, thread: CutId| {
        joint.verb != Verb::Post || parts[end.part].features[thread].end == end.end
    };
    let wanted = |form: &ThreadForm| {
        joint
            .with
            .as_ref()
            .is_none_or(|with| with.thread.mates_with(form))
    };
    let mut pairs = Vec::new();
    for (male, one) in threads(&parts[joint.male.part], Side::Outside) {
        for (female, other) in threads(&parts[joint.female.part], Side::Inside) {
            let here = from(joint.male, male) && from(joint.female, female);
            if here && one.mates_with(other) && wanted(one) {
                pairs.push(MatedThreads { male, female });
            }
        }
    }
    pairs
}

/// The threads of a joint that mate; where none do, the two that are nearest in diameter, which
/// were meant for each other.
pub(crate) fn meant(joint: &Joint, parts: &Parts) -> Vec<MatedThreads> {
    let pairs = mated(joint, parts);
    if !pairs.is_empty() || !matches!(joint.verb, Verb::Screw | Verb::Close) {
        return pairs;
    }
    let mut nearest: Option<(Length, MatedThreads)> = None;
    for (male, one) in threads(&parts[joint.male.part], Side::Outside) {
        for (female, other) in threads(&parts[joint.female.part], Side::Inside) {
            let apart = (one.major() - other.major()).abs();
            if nearest.is_none_or(|(least, _)| apart < least) {
                nearest = Some((apart, MatedThreads { male, female }));
            }
        }
    }
    // Threads of far different size were never meant for each other.
    let near = nearest.filter(|(apart, _)| *apart <= Length::mm(1.0));
    near.map(|(_, pair)| pair).into_iter().collect()
}

/// How the threads of a joint are engaged when the male's leading face lies this deep.
pub(crate) fn engagements(joint: &Joint, parts: &Parts, goes_in_mm: f64) -> Vec<Engagement> {
    let (male, female) = (&parts[joint.male.part], &parts[joint.female.part]);
    let engaged = |threads: MatedThreads| {
        let outside = full_form(male, threads.male, joint.male.end);
        let inside = full_form(female, threads.female, joint.female.end);
        let (form, _) = male.features[threads.male].thread()?;
        let leading_mm = goes_in_mm - outside.0;
        let male_place = Placement::leading(male, joint.male.end).moved(goes_in_mm);
        let female_place = Placement::inward(female, joint.female.end);
        let travel_mm = lets_go_mm(
            (male, threads.male, male_place),
            (female, threads.female, female_place),
        );
        let begins = (
            ThreadStart::of(&male.features[threads.male], joint.male.end, outside),
            ThreadStart::of(&female.features[threads.female], joint.female.end, inside),
        );
        let marks_apart = match begins {
            (Some(one), Some(other)) => Some(marks_apart(one, other, &form.thread, goes_in_mm)),
            _ => None,
        };
        Some(Engagement {
            threads,
            form: form.thread,
            overlap_mm: leading_mm.min(inside.1) - (goes_in_mm - outside.1).max(inside.0),
            travel_mm: travel_mm.unwrap_or(0.0),
            leading_mm,
            mouth_mm: inside.0,
            ahead_mm: inside.1 - leading_mm,
            marks_apart,
        })
    };
    let mut found: Vec<Engagement> = mated(joint, parts)
        .into_iter()
        .filter_map(engaged)
        .collect();
    put_in_order(&mut found, |it| -it.overlap_mm);
    found
}

fn threads(part: &Part, side: Side) -> impl Iterator<Item = (CutId, &ThreadForm)> {
    part.features
        .with_ids()
        .filter_map(move |(index, feature)| {
            let (thread, its) = feature.thread()?;
            (its == side).then_some((index, &thread.thread))
        })
}

/// From where to where a thread has its full form, mm inward from an end's face: its reach, less
/// what a wider bore or a slimmer relief, an edge or a countersink takes of it.
fn full_form(part: &Part, feature: CutId, end: End) -> (f64, f64) {
    let thread = &part.features[feature];
    let (from, to) = thread.stations(part.length);
    let mut reach = (from.to_mm(), to.to_mm());
    if let Some(profiles) = &part.profiles {
        let of = |solid: &'_ Solid, left: &dyn Fn(Tag) -> bool, reach| match thread.is_inside() {
            true => left_between(&solid.inner, left, reach),
            false => left_between(std::slice::from_ref(&solid.outer), left, reach),
        };
        // Its roots are its own only where nothing cuts deeper; its crests, where nothing slopes.
        let own = |tag| profiles.origin(tag) == Origin::Feature(feature);
        let whole = |tag| !profiles.origin(tag).is_edge();
        reach = of(&profiles.root, &own, reach);
        reach = of(&profiles.crest, &whole, reach);
    }
    let (from, to) = reach;
    let length = part.length.to_mm();
    match end {
        End::First => (from, to),
        End::Second => (length - to, length - from),
    }
}

impl Part {
    /// From where to where a thread of this part is drawn of full form, inward from an end's face;
    /// none where this cut is no thread.
    pub fn full_form(&self, feature: CutId, end: End) -> Option<(Length, Length)> {
        self.features.get(feature)?.thread()?;
        let (from, to) = full_form(self, feature, end);
        Some((Length::mm(from), Length::mm(to)))
    }
}

/// Between these stations, from the first to the last piece of surface that counts; the stations
/// themselves where none does.
fn left_between(
    chains: &[Chain],
    counts: &dyn Fn(Tag) -> bool,
    (from, to): (f64, f64),
) -> (f64, f64) {
    let pieces = chains.iter().flat_map(Chain::segments);
    let left = pieces
        .filter(|piece| counts(piece.tag))
        .filter_map(|piece| piece.curve.between(from, to))
        .filter(|curve| !curve.is_vertical());
    let (least, most) = left.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), curve| {
        (a.min(curve.start().z), b.max(curve.end().z))
    });
    match least < most {
        true => (from.max(least), to.min(most)),
        false => (from, to),
    }
}
