//! What a hole or another cut leaves nothing of: a thread, or the whole part. It is told once, and
//! not what its joints do without it.

use super::{OF_SHAPES, is_of, places};
use crate::Rule;
use crate::findings::RaisedFinding;
use crate::rules::{cuts_nothing, off_tap_drill, thread_cut_away};
use crate::shape::{Threaded, left_of};
use quillet_model::{Joint, JointId, Part, PartId, Pen};
use quillet_syntax::ast::Verb;
use quillet_syntax::{RuleId, Severity, Span};
use std::collections::{BTreeMap, BTreeSet};

/// What tells of a thread that nothing is left of, the nearest to the cause first: of one thread
/// only the first is told.
static OF_THREADS: &[&Rule] = &[
    &off_tap_drill::RULE,
    &thread_cut_away::RULE,
    &cuts_nothing::RULE,
];

/// What other cuts leave nothing of.
#[derive(Default)]
pub(super) struct Undone {
    /// Threads, by where they are cut, and how near to the cause they are told of.
    threads: BTreeMap<(PartId, Span), usize>,
    /// Holes that come out of their part.
    holes: Vec<(PartId, Span)>,
    /// Parts of which a hole that is as wide as they are anywhere leaves nothing.
    parts: BTreeSet<PartId>,
}

impl Undone {
    /// Notes what an error of a part says is not there; the joints that lack it.
    pub(super) fn note(&mut self, pen: &Pen, id: PartId, it: &RaisedFinding) -> Vec<JointId> {
        let (Some(part), rule) = (pen.parts.get(id), it.finding.rule) else {
            return Vec::new();
        };
        if is_of(rule, OF_SHAPES) {
            self.holes.push((id, it.finding.span));
            if is_hollowed(part, it.finding.span) {
                self.parts.insert(id);
            }
        }
        let Some(rank) = rank(rule).filter(|_| it.finding.severity == Severity::Error) else {
            return Vec::new();
        };
        let mut open = Vec::new();
        for thread in gone(part, it) {
            let known = self.threads.entry((id, thread.feature.span));
            let known = known.or_insert(rank);
            *known = rank.min(*known);
            let holds = |joint: &Joint| is_held_by(pen, joint, id, &thread);
            let held = pen.joints.with_ids().filter(|(_, joint)| holds(joint));
            open.extend(held.map(|(joint, _)| joint));
        }
        open
    }

    /// Whether nothing is known of.
    pub(super) fn is_empty(&self) -> bool {
        self.threads.is_empty() && self.holes.is_empty()
    }

    /// Parts of which nothing is left.
    pub(super) fn parts(&self) -> &BTreeSet<PartId> {
        &self.parts
    }

    /// Whether a finding of a part is of a hole or a thread that is told of already.
    pub(super) fn tells_again(&self, part: PartId, it: &RaisedFinding) -> bool {
        let (rule, span) = (it.finding.rule, it.finding.span);
        if is_of(rule, OF_SHAPES) {
            return false;
        }
        let within = |known: &(PartId, Span)| known.0 == part && known.1.contains(span);
        if self.parts.contains(&part) || self.holes.iter().any(within) {
            return true;
        }
        rank(rule).is_some_and(|own| {
            let known = |place: Span| self.threads.get(&(part, place));
            places(it).filter_map(known).any(|first| *first < own)
        })
    }
}

fn rank(rule: RuleId) -> Option<usize> {
    OF_THREADS
        .iter()
        .position(|it| rule == RuleId::new(it.code))
}

/// Whether the hole at a place is as wide as its part is anywhere.
fn is_hollowed(part: &Part, hole: Span) -> bool {
    let dia = part.features.iter().find(|it| it.span == hole);
    let widest = part.stations.iter();
    let widest = widest.map(|it| it.dia.max(it.step.unwrap_or(it.dia))).max();
    let dia = dia.and_then(|it| it.dia());
    dia.zip(widest).is_some_and(|(dia, widest)| dia >= widest)
}

/// The threads of a part that a finding points at and that nothing is left of.
fn gone<'p>(part: &'p Part, it: &RaisedFinding) -> Vec<Threaded<'p>> {
    let Some(profiles) = &part.profiles else {
        return Vec::new();
    };
    let outer = std::slice::from_ref(&profiles.root.outer);
    let told: Vec<Span> = places(it).collect();
    let all = part.features.with_ids().filter_map(Threaded::of);
    let lost = all.filter(|thread| {
        let roots = match thread.feature.is_inside() {
            true => &profiles.root.inner[..],
            false => outer,
        };
        told.contains(&thread.feature.span) && left_of(part, roots, thread.index).is_none()
    });
    lost.collect()
}

/// Whether a joint screws a part by one of its threads.
fn is_held_by(pen: &Pen, joint: &Joint, id: PartId, thread: &Threaded<'_>) -> bool {
    let (male, female) = (joint.male.part, joint.female.part);
    let mate = match thread.feature.is_inside() {
        true => (female == id).then_some(male),
        false => (male == id).then_some(female),
    };
    let mate = mate.and_then(|mate| pen.parts.get(mate));
    let mates = |mate: &Part| {
        let mut threads = mate.features.iter().filter_map(|it| it.thread());
        threads.any(|(it, _)| it.thread.mates_with(&thread.thread.thread))
    };
    matches!(joint.verb, Verb::Screw | Verb::Close) && mate.is_some_and(|it| mates(it))
}
