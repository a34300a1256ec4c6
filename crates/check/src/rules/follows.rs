//! What only follows from something that is told of as well: one slip, one finding.
//!
//! A joint that is blocked has more to mend before its thread is measured; a part that is broken
//! through lets nothing be told of what it holds. What is left unsaid comes back by itself when
//! the cause is mended and it is still so.

mod undone;

use super::{
    broken_through, missing_thread, nib_strikes_cap, no_such_die, no_such_tap, out_of_proportion,
    rolls_away, stops_early, thread_mismatch, want_unmet, wont_pass, wrong_way_round,
};
use crate::findings::RaisedFinding;
use crate::{Rule, measure, shape};
use quillet_model::{Configured, Design, Joint, JointId, Measure, PartId, Pen, Want};
use quillet_syntax::ast::Verb;
use quillet_syntax::{RuleId, Severity, Span};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use undone::Undone;

/// What keeps a joint from going together, the deepest cause first: of one joint only the deepest
/// is told.
static OF_JOINTS: &[&[&Rule]] = &[
    &[&wrong_way_round::RULE],
    &[&thread_mismatch::RULE, &missing_thread::RULE],
    &[&stops_early::RULE, &wont_pass::RULE, &nib_strikes_cap::RULE],
];

/// How deep threads that do not match lie: they do so whatever the parts look like.
const THREADS: usize = 1;

/// What leaves of a part no shape that its joints could be judged by.
static OF_SHAPES: &[&Rule] = &[&broken_through::RULE];

/// What makes nonsense of all that follows from a part: of that part nothing else is told, nor of
/// what it is joined to.
static OF_PARTS: &[&Rule] = &[&out_of_proportion::RULE, &wrong_way_round::RULE];

/// What is left when all is gone that only follows from the rest.
pub(crate) fn without(design: &Design, raised: Vec<RaisedFinding>) -> Vec<RaisedFinding> {
    let causes: BTreeMap<&str, RootCauses<'_>> = design
        .pens
        .iter()
        .map(|pen| (&*pen.name.text, RootCauses::of(pen, &raised)))
        .filter(|(_, causes)| !causes.is_empty())
        .collect();
    let alone = |it: &RaisedFinding| it.about.pen.is_none() && is_of(it.finding.rule, OF_PARTS);
    let alone = raised.iter().filter(|it| alone(it));
    let alone: BTreeSet<Arc<str>> = alone.filter_map(|it| it.about.part.clone()).collect();
    let odd = raised.iter().filter(|it| is_of(it.finding.rule, OF_PARTS));
    let odd: Vec<Span> = odd.map(|it| it.finding.span).collect();
    let follows = |it: &RaisedFinding| match (&it.about.pen, &it.about.part) {
        (Some(pen), _) => causes.get(&**pen).is_some_and(|causes| causes.explain(it)),
        (None, Some(part)) => alone.contains(part) && !is_of(it.finding.rule, OF_PARTS),
        (None, None) => {
            let of_part = |causes: &RootCauses<'_>| causes.unshapes(design, it);
            let here = |cause: &Span| cause.contains(it.finding.span);
            causes.values().any(of_part) || odd.iter().any(here)
        }
    };
    raised.into_iter().filter(|it| !follows(it)).collect()
}

/// What other findings of a pen follow from.
struct RootCauses<'d> {
    pen: &'d Pen,
    /// Joints that do not go together, and how deep the cause lies.
    joints: BTreeMap<JointId, usize>,
    /// Parts that are told of alone.
    alone: BTreeSet<PartId>,
    /// Parts without a shape to judge, and where they are broken.
    broken: BTreeMap<PartId, Vec<Span>>,
    /// The threads that do not match each other, two and two, of which the bench cuts one.
    mismatched: Vec<Span>,
    undone: Undone,
}

impl<'d> RootCauses<'d> {
    fn of(pen: &'d Pen, raised: &[RaisedFinding]) -> Self {
        let mut causes = Self {
            pen,
            joints: BTreeMap::new(),
            alone: BTreeSet::new(),
            broken: BTreeMap::new(),
            mismatched: Vec::new(),
            undone: Undone::default(),
        };
        let of_pen = |it: &&RaisedFinding| it.about.pen.as_deref() == Some(&*pen.name.text);
        for it in raised.iter().filter(of_pen) {
            let rule = it.finding.rule;
            let part = it.about.part.as_deref();
            let part = part.and_then(|part| pen.part_id(part));
            if is_of(rule, OF_PARTS) {
                causes.alone.extend(part);
                let parts = pen.parts.with_ids();
                let cut = parts.filter(|(_, part)| shape::cuts_thread(part, it.finding.span));
                causes.alone.extend(cut.map(|(id, _)| id));
            }
            if it.finding.severity != Severity::Error {
                continue;
            }
            // Said to go the other way about, neither lies where it will.
            let turned = it
                .about
                .joint
                .filter(|_| rule == RuleId::new(wrong_way_round::RULE.code));
            if let Some(joint) = turned.and_then(|joint| pen.joints.get(joint)) {
                causes.alone.extend([joint.male.part, joint.female.part]);
            }
            if let (Some(joint), Some(depth)) = (it.about.joint, depth(rule)) {
                let known = causes.joints.entry(joint).or_insert(depth);
                *known = depth.min(*known);
            }
            if let Some(part) = part.filter(|_| is_of(rule, OF_SHAPES)) {
                causes.broken.entry(part).or_default().extend(places(it));
            }
            if let Some(part) = part {
                for joint in causes.undone.note(pen, part, it) {
                    let known = causes.joints.entry(joint).or_insert(THREADS);
                    *known = THREADS.min(*known);
                }
            }
            if rule == RuleId::new(thread_mismatch::RULE.code) {
                let spans: Vec<Span> = it.finding.labels.iter().map(|it| it.span).collect();
                let untooled = |it: &RaisedFinding| is_of(it.finding.rule, TOOLS);
                let known = raised.iter().filter(|it| untooled(it));
                let missing: Vec<Span> = known.map(|it| it.finding.span).collect();
                let lacks = |cut: &Span| missing.iter().any(|it| cut.contains(*it));
                // Where the bench cuts neither, that is another matter.
                if !spans.iter().all(lacks) {
                    causes.mismatched.extend(spans);
                }
            }
        }
        causes
    }

    fn is_empty(&self) -> bool {
        self.joints.is_empty()
            && self.alone.is_empty()
            && self.broken.is_empty()
            && self.undone.is_empty()
    }

    /// Whether a finding of this pen follows from what is known.
    fn explain(&self, it: &RaisedFinding) -> bool {
        let (rule, span) = (it.finding.rule, it.finding.span);
        if rule == RuleId::new(rolls_away::RULE.code) || is_of(rule, OF_PARTS) {
            return false;
        }
        let part = it.about.part.as_deref();
        let part = part.and_then(|part| self.pen.part_id(part));
        let none_left = self.undone.parts();
        if !self.alone.is_empty() || !none_left.is_empty() {
            let touched = match (part, it.about.joint) {
                (Some(part), _) => self.alone.contains(&part),
                (None, Some(joint)) => self.moves_alone(joint),
                (None, None) => true,
            };
            if touched {
                return true;
            }
        }
        if part.is_some_and(|part| self.undone.tells_again(part, it)) {
            return true;
        }
        if is_of(rule, TOOLS) {
            return self.mismatched.iter().any(|it| it.contains(span));
        }
        if rule == RuleId::new(want_unmet::RULE.code) {
            return match part {
                Some(part) => self.broken.contains_key(&part),
                None => self
                    .wants()
                    .any(|want| want.span == span && self.rests(want)),
            };
        }
        if it.about.part.is_some() {
            return false;
        }
        let joints = self.pen.joints.with_ids();
        let at = |(index, joint): &(JointId, &Joint)| match it.about.joint {
            Some(own) => *index == own,
            None => joint.head == span,
        };
        joints.into_iter().find(at).is_some_and(|(index, joint)| {
            let own = depth(rule);
            let deeper = self.joints.get(&index);
            let less = deeper.is_some_and(|depth| own.is_none_or(|own| own > *depth));
            // What hangs on a joint that is told of lies elsewhere than it will.
            let rest = self.pen.assembly.joints.get(index);
            let upset = own.is_none() && rest.is_some_and(|rest| rest.verdict.upset);
            less || upset && !self.joints.is_empty()
                || own.is_none_or(|own| own > THREADS) && self.is_broken(joint, it)
        })
    }

    /// Whether a finding says that a part told of alone has no outside somewhere.
    fn unshapes(&self, design: &Design, it: &RaisedFinding) -> bool {
        let within = |part: &PartId| {
            let part = design.part(&self.pen.parts[*part].name.text);
            part.is_some_and(|part| part.span.contains(it.finding.span))
        };
        it.finding.rule == UNSHAPED && self.alone.iter().any(within)
    }

    /// Whether a joint moves a part that is told of alone, or one that lies in its way.
    fn moves_alone(&self, joint: JointId) -> bool {
        let own = self.pen.joints.get(joint).into_iter().flat_map(|joint| {
            let own = [joint.male.part, joint.female.part];
            own.into_iter().chain(joint.through.iter().copied())
        });
        let rest = self.pen.assembly.joints.get(joint).into_iter();
        let with = rest.flat_map(|rest| rest.males.iter().chain(&rest.females));
        let mut parts = own.chain(with.map(|(part, _)| *part));
        parts.any(|part| self.alone.contains(&part) || self.undone.parts().contains(&part))
    }

    /// Whether what is found in a joint is found where one of its parts is broken.
    fn is_broken(&self, joint: &Joint, it: &RaisedFinding) -> bool {
        let own = [joint.male.part, joint.female.part];
        let parts = own.iter().chain(&joint.through);
        let mut broken = parts.filter_map(|part| self.broken.get(part)).flatten();
        broken.any(|at| places(it).any(|place| place == *at))
    }

    fn wants(&self) -> impl Iterator<Item = &Want> {
        let of_joints = self.pen.joints.iter().flat_map(|joint| &joint.wants);
        self.pen.wants.iter().chain(of_joints)
    }

    /// Whether what is wanted rests on a joint or a part that is told of.
    fn rests(&self, want: &Want) -> bool {
        let open = |concerns: &dyn Fn(Verb) -> bool| {
            let verb = |index: &JointId| self.pen.joints.get(*index).map(|joint| joint.verb);
            self.joints.keys().filter_map(verb).any(concerns)
        };
        let lasting = Verb::lasts;
        let within = |state: &Configured, verb: Verb| match verb {
            Verb::Close => *state == Configured::Capped,
            Verb::Post => *state == Configured::Posted,
            Verb::Rest => *state == Configured::Resting,
            _ => true,
        };
        measure::all(want).any(|it| match it {
            Measure::Turns(joint)
            | Measure::Travel(joint)
            | Measure::Overlap(joint)
            | Measure::Hold(joint) => {
                let rest = self.pen.assembly.joints.get(*joint);
                let sure = rest.is_some_and(|rest| rest.verdict.is_sure());
                !sure || self.joints.contains_key(joint)
            }
            Measure::Length(state) | Measure::Balance(state) | Measure::Clearance(_, _, state) => {
                open(&|verb| within(state, verb))
            }
            Measure::Distance(_, _, Some(state)) => open(&|verb| within(state, verb)),
            Measure::Distance(..) => open(&|verb| !matches!(verb, Verb::Post | Verb::Rest)),
            Measure::Ink => open(&|verb| lasting(verb)) || !self.broken.is_empty(),
            Measure::Wall(part) | Measure::Diameter(part, _) | Measure::Across(part, _) => {
                self.broken.contains_key(part)
            }
            Measure::Mass(_) => false,
        })
    }
}

/// An outside that nothing gives.
const UNSHAPED: RuleId = RuleId::new("unshaped-outside");

/// What a bench lacks for a thread.
static TOOLS: &[&Rule] = &[&no_such_die::RULE, &no_such_tap::RULE];

/// Where a finding points.
fn places(it: &RaisedFinding) -> impl Iterator<Item = Span> {
    let labels = it.finding.labels.iter().map(|label| label.span);
    [it.finding.span].into_iter().chain(labels)
}

fn is_of(rule: RuleId, rules: &[&Rule]) -> bool {
    rules.iter().any(|it| RuleId::new(it.code) == rule)
}

/// How deep a cause in a joint lies; none where a rule tells of none.
fn depth(rule: RuleId) -> Option<usize> {
    OF_JOINTS.iter().position(|rules| is_of(rule, rules))
}
