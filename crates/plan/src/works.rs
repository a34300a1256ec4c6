//! Which parts of a pen are turned as one, and the route that turns them.

use crate::holding::mandrel_set::MandrelSet;
use crate::route::{Route, route};
use crate::tasks::as_one::{Extent, begun, in_work};
use crate::tasks::task::BlendPartner;
use crate::tasks::work_map::{map_of_work, mates_of_work};
use crate::tools::bench_tools::BenchTools;
use crate::{DrilledHole, Indexed, PlanProblem, Strategy};
use quillet_model::{AsOne, End, PartId, Pen};
use std::sync::Arc;

/// The works of a pen of which all parts can be made.
pub(crate) fn works(pen: &Pen) -> Vec<AsOne> {
    let mut all = pen.turned_as_one();
    let known = |part: PartId| pen.parts[part].lacks_making().is_none();
    all.retain(|it| it.members.iter().all(|it| known(it.part)));
    all
}

/// The work that a part's outside is turned in.
pub(crate) fn work_of(works: &[AsOne], part: PartId) -> Option<&AsOne> {
    let holds = |it: &&AsOne| it.members.iter().any(|it| it.part == part);
    works.iter().find(holds)
}

/// How much of a part its own route makes.
pub(crate) fn extent(
    pen: &Pen,
    work: Option<&AsOne>,
    part: PartId,
    with: Option<BlendPartner>,
    bench_tools: BenchTools,
) -> Extent {
    match work {
        Some(work) => Extent::Inside(in_work(pen, work, part, bench_tools)),
        None => Extent::Whole(with),
    }
}

/// The route that joins the parts of a work and turns their outside.
pub(crate) fn work_route(
    pen: &Pen,
    work: &AsOne,
    bench_tools: BenchTools,
    mandrel_set: &mut MandrelSet,
) -> Option<Route> {
    let map = map_of_work(pen, work)?;
    let mates = mates_of_work(pen, work);
    let nub = Strategy::of(&map, &mates, bench_tools).nub;
    let extent = Extent::Outside(begun(pen, work, nub, bench_tools)?);
    let made = route(&work.part, map, &mates, extent, bench_tools, mandrel_set);
    Some(Route {
        turns: Some(Arc::new(work.clone())),
        ..made
    })
}

/// What stands in the way of turning a work, as it is told of one of its parts: of its own cuts and ends, and,
/// of what carries the others, of what is nobody's own.
pub(crate) fn told_of(
    pen: &Pen,
    work: &AsOne,
    part: PartId,
    problem: &PlanProblem,
) -> Option<PlanProblem> {
    let member = work.members.iter().position(|it| it.part == part)?;
    let own_end = |end: End| work.level(&work.members[member], &pen.parts[part], end);
    let mut told = problem.clone();
    let is_own = match &mut told {
        PlanProblem::NoDrill {
            hole: DrilledHole::Cut(feature),
            ..
        }
        | PlanProblem::NoReamer { feature, .. }
        | PlanProblem::NoTap { feature, .. }
        | PlanProblem::NoDie { feature, .. }
        | PlanProblem::NoBushing { feature, .. }
        | PlanProblem::BeyondReach { feature, .. }
        | PlanProblem::NoSpeed {
            feature: Some(feature),
            ..
        }
        | PlanProblem::NoOrder {
            feature: Some(feature),
            ..
        } => put(feature, work.cuts.get(*feature), part),
        PlanProblem::NoIndex {
            cut: Indexed::Side(cut),
            ..
        }
        | PlanProblem::NoDrill {
            hole: DrilledHole::Indexed(Indexed::Side(cut)),
            ..
        }
        | PlanProblem::NoCutter { cut, .. } => put(cut, work.sides.get(*cut), part),
        PlanProblem::NoSpeed { .. } | PlanProblem::NoOrder { .. } => member == 0,
        PlanProblem::SlenderMandrel { end, .. }
        | PlanProblem::NarrowBearing { end, .. }
        | PlanProblem::ShortGrip { end, .. } => match own_end(*end) {
            Some(own) => {
                *end = own;
                true
            }
            None => false,
        },
        // Of its stock, and of its holes beside the axis, the part's own route tells.
        PlanProblem::NoIndex { .. }
        | PlanProblem::NoDrill { .. }
        | PlanProblem::NoCollet { .. }
        | PlanProblem::BlankTooThin { .. }
        | PlanProblem::BlankTooShort { .. } => false,
    };
    is_own.then_some(told)
}

/// Puts a part's own number for the work's, where it is that part's.
fn put<I: Copy>(id: &mut I, of: Option<&(PartId, I)>, part: PartId) -> bool {
    let own = of.filter(|it| it.0 == part);
    if let Some(own) = own {
        *id = own.1;
    }
    own.is_some()
}
