//! How much *complete* thread lies in its mate.
//!
//! An [`Engagement`] tells what is drawn: a `thread` line asks for full form over its whole reach.
//! Where a shoulder or the bottom of a hole stops the tool sooner, its lead-in leaves threads that
//! look the part and carry nothing.

use crate::JointView;
use crate::lead_in::LeadIn;
use crate::shape::{self, Threaded};
use quillet_geometry::Length;
use quillet_model::{AtRest, Bench, CutId, End, Engagement, Part};

/// What of an overlap is of full form on both threads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct FullFormOverlap {
    /// How long it is, mm; less than nothing where complete threads never reach each other.
    pub(crate) overlap_mm: f64,
    /// What lead-ins take of the overlap that is drawn, mm.
    pub(crate) lost_mm: f64,
    /// The lead-in that takes the most, where one takes any.
    pub(crate) lead_in: Option<LeadIn>,
}

/// What is left of an engagement when the lead-ins of the tools that cut it are deducted.
pub(crate) fn complete(
    view: &JointView<'_>,
    rest: &AtRest,
    engaged: &Engagement,
) -> FullFormOverlap {
    let deep = engaged.leading_mm + engaged.ahead_mm.min(0.0);
    let drawn = Interval(deep - engaged.overlap_mm, deep);
    let (joint, bench) = (view.joint, view.pen.bench);
    let threads = engaged.threads;
    let outside = outside(view.male, threads.male, joint.male.end, bench)
        .map(|(full, lead)| (full.mirrored(rest.goes_in_mm), lead));
    let inside = inside(view.female, threads.female, joint.female.end, bench);
    let mut left = drawn;
    let mut most: Option<(f64, LeadIn)> = None;
    for (full, lead) in [outside, inside].into_iter().flatten() {
        left = left.within(full);
        let taken = drawn.length() - drawn.within(full).length();
        if taken > 1e-9 && most.is_none_or(|(before, _)| taken > before) {
            most = Some((taken, lead));
        }
    }
    FullFormOverlap {
        overlap_mm: left.length(),
        lost_mm: drawn.length() - left.length(),
        lead_in: most.map(|(_, lead)| lead),
    }
}

/// From where to where along a joint's axis, or inward from an end, mm.
#[derive(Clone, Copy)]
struct Interval(f64, f64);

impl Interval {
    fn length(self) -> f64 {
        self.1 - self.0
    }

    fn within(self, other: Interval) -> Interval {
        Interval(self.0.max(other.0), self.1.min(other.1))
    }

    /// The same counted the other way from a place.
    fn mirrored(self, about_mm: f64) -> Interval {
        Interval(about_mm - self.1, about_mm - self.0)
    }
}

/// Where the die can leave full form on an outside thread, inward from an end; none where it is
/// not cut, or nothing stops the die.
fn outside(
    part: &Part,
    index: CutId,
    end: End,
    bench: Option<&Bench>,
) -> Option<(Interval, LeadIn)> {
    let it = Threaded::of((index, part.features.get(index)?)).filter(|_| !part.is_bought())?;
    let form = &it.thread.thread;
    let (cut, lead) = (it.feature, LeadIn::of_die(bench, form));
    let shoulder = shape::shoulder_behind(part, cut.end, cut.to, form.major())?;
    Some((full_form(part, &it, end, shoulder - lead.length), lead))
}

/// Where the tap can leave full form in an inside thread, inward from an end; none where it is not
/// cut, or the hole is open beyond it.
fn inside(
    part: &Part,
    index: CutId,
    end: End,
    bench: Option<&Bench>,
) -> Option<(Interval, LeadIn)> {
    let it = Threaded::of((index, part.features.get(index)?)).filter(|_| !part.is_bought())?;
    let lead = LeadIn::of_tap(bench, &it.thread.thread);
    let bottom = shape::tapped_to(part, &it)?;
    Some((full_form(part, &it, end, bottom - lead.length), lead))
}

/// Full form as far as this from the end the thread is cut from, told inward from `end`.
fn full_form(part: &Part, it: &Threaded<'_>, end: End, as_far: Length) -> Interval {
    match it.feature.end == end {
        true => Interval(f64::NEG_INFINITY, as_far.to_mm()),
        false => Interval((part.length - as_far).to_mm(), f64::INFINITY),
    }
}
