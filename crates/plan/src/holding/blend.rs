//! Parts that are turned joined, in one pass.

use crate::Strategy;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::lining::map_of;
use crate::tasks::mate::mates;
use crate::tools::bench_tools::BenchTools;
use quillet_geometry::Length;
use quillet_model::{AsOne, End, Joint, JointEnd, JointId, PartId, Pen};
use quillet_syntax::ast::Verb;

/// A step between two outsides no higher than this is turned away, on diameter (common practice, no
/// published source).
const TURNED_AWAY: Length = Length::from_nm(200_000);

/// Two parts turned joined: one by its nub in the collet, the other on the tail centre.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Blend {
    pub(crate) gripped: PartId,
    pub(crate) on_tail: PartId,
    /// How far the one is in the other when it is home.
    pub(crate) goes_in: Length,
}

impl Blend {
    /// The part that one of the two is turned with.
    pub(crate) fn partner(&self, part: PartId) -> Option<PartId> {
        match part {
            it if it == self.gripped => Some(self.on_tail),
            it if it == self.on_tail => Some(self.gripped),
            _ => None,
        }
    }
}

/// The pairs turned joined: those that are to be flush, then those that are drawn nearly so, the cap's joint
/// first. No part is in two.
pub(crate) fn blends(pen: &Pen, works: &[AsOne], bench_tools: BenchTools) -> Vec<Blend> {
    let screwed = |it: &&(JointId, &Joint)| matches!(it.1.verb, Verb::Close | Verb::Screw);
    let mut joints: Vec<(JointId, &Joint)> =
        pen.joints.with_ids().filter(|it| screwed(&it)).collect();
    joints.sort_by_key(|(_, it)| (it.flush.is_none(), it.verb != Verb::Close));
    let mut found: Vec<Blend> = Vec::new();
    for (id, joint) in joints {
        let [male, female] = [joint.male, joint.female];
        let is_taken = |it: &Blend| {
            [male, female]
                .iter()
                .any(|own| it.partner(own.part).is_some())
        };
        let is_same = male.part == female.part;
        let in_work = |it: JointEnd| {
            let mut members = works.iter().flat_map(|it| &it.members);
            members.any(|own| own.part == it.part)
        };
        if is_same
            || in_work(male)
            || in_work(female)
            || found.iter().any(is_taken)
            || !is_even(pen, id, joint)
        {
            continue;
        }
        let ways = [(male, female), (female, male)];
        let mut held = ways
            .into_iter()
            .filter_map(|(gripped, other)| held(pen, gripped, other, bench_tools));
        let rest = pen.assembly.joints.get(id);
        let goes_in = rest.map_or(Length::ZERO, |it| Length::mm(it.goes_in_mm));
        let blend = held.next().map(|(gripped, on_tail)| Blend {
            gripped,
            on_tail,
            goes_in,
        });
        found.extend(blend);
    }
    found
}

/// How two are held joined: the one by the nub beyond its closed end, the other by what is at its far end;
/// none where one of them has nothing there.
fn held(
    pen: &Pen,
    gripped: JointEnd,
    other: JointEnd,
    bench_tools: BenchTools,
) -> Option<(PartId, PartId)> {
    nub(pen, gripped, bench_tools)?;
    let far = other.end.other();
    let feature_map = known(pen, other.part)?;
    let mates = mates(pen, other.part);
    let strategy = Strategy::of(&feature_map, &mates, bench_tools);
    // As while it was turned by itself, on a mandrel at the joint.
    let turned_so = strategy.mandrel.is_some_and(|(end, _)| end != far);
    let takes_centre = strategy.nub == Some(far) || feature_map.opens_at(far, &mates);
    (turned_so && takes_centre).then_some((gripped.part, other.part))
}

fn known(pen: &Pen, id: PartId) -> Option<FeatureMap<'_>> {
    let part = pen.parts.get(id)?;
    let is_cut = !part.is_bought() && part.lacks_making().is_none();
    is_cut.then(|| map_of(pen, id)).flatten()
}

/// The end away from a joint, where it keeps a nub.
fn nub(pen: &Pen, side: JointEnd, bench_tools: BenchTools) -> Option<End> {
    let feature_map = known(pen, side.part)?;
    let strategy = Strategy::of(&feature_map, &mates(pen, side.part), bench_tools);
    strategy.nub.filter(|end| *end != side.end)
}

/// Whether the two outsides are to be flush where they meet, or are drawn nearly so.
fn is_even(pen: &Pen, id: JointId, joint: &Joint) -> bool {
    // The female's outside at its face, and the male's where that face comes to.
    let outside = |side: JointEnd, inward_mm: f64| {
        let part = pen.parts.get(side.part)?;
        let at = part.station(side.end, Length::mm(inward_mm)).to_mm();
        let found = part.profiles.as_ref()?.turned().radii_at(at)?;
        Some(match side.end {
            End::First => found.1,
            End::Second => found.0,
        })
    };
    let step = || {
        let rest = pen.assembly.joints.get(id)?;
        let male = outside(joint.male, rest.goes_in_mm)?;
        let female = outside(joint.female, 0.0)?;
        Some(Length::mm((male - female).abs() * 2.0))
    };
    joint.flush.is_some() || step().is_some_and(|step| step <= TURNED_AWAY)
}
