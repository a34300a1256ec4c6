//! More wall: a fatter outside, a shallower hole, a smaller one.

use super::pitch::moved;
use super::{Proposal, fatter, larger, narrower, reach, turned_to};
use crate::{PartView, Role, Wall};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature, Origin, ThreadDef};

/// What may bring a wall to the thickness that is wanted, as a maker would go about it: of a closed
/// end a shallower hole; else more outside, then a shallower hole, then a smaller one.
pub(crate) fn wall(view: &PartView<'_>, wall: &Wall, wanted: Length) -> Vec<Proposal> {
    let (design, part) = (view.design, view.part);
    let units = design.units_at(part.span);
    let more = wanted - wall.least;
    let cut = |origin: Origin| origin.feature().and_then(|at| part.features.get(at));
    let grown = cut(wall.outer).and_then(|outer| {
        let dia = outer.dia()?;
        turned_to(part, outer, units.up(dia + more.twice()))
    });
    let outside = grown.or_else(|| fatter(design, part, wall.outer, more.twice()));
    let inner = cut(wall.inner).filter(|inner| is_hole(inner));
    let shallower = inner.into_iter().flat_map(|inner| {
        STEPS.iter().filter_map(move |times| {
            let less = units.down(inner.to - more.scaled(*times));
            reach(design, part, inner, less)
        })
    });
    let smaller = inner.and_then(|inner| {
        let dia = inner.dia()? - more.twice();
        narrower(view, wall.inner.feature()?, units.down(dia))
    });
    // What lies over the bore of a joint is the root of its thread, or the relief behind it.
    let thread = threaded(view, wall).and_then(|thread| {
        let major = thread.thread.major() + more.twice();
        larger(view, thread, major)
    });
    let mut proposals: Vec<Proposal> = Vec::new();
    proposals.extend(moved(design, part, wall, wanted));
    if wall.role == Role::End {
        proposals.extend(shallower);
        return proposals;
    }
    proposals.extend(outside);
    proposals.extend(shallower);
    proposals.extend(smaller);
    proposals.extend(thread);
    proposals
}

/// The outside thread whose root, or whose relief, a wall lies under.
pub(crate) fn threaded<'v>(view: &'v PartView<'_>, wall: &Wall) -> Option<&'v ThreadDef> {
    let features = &view.part.features;
    let cut = features.get(wall.outer.feature()?)?;
    if let Some((thread, _)) = cut.thread() {
        return Some(thread);
    }
    let relieved = features
        .iter()
        .filter(|it| !it.is_inside() && it.end == cut.end);
    let mut threads = relieved.filter_map(|it| it.thread());
    let (thread, _) = threads
        .next()
        .filter(|_| matches!(cut.cut, Cut::Relief { .. }))?;
    Some(thread)
}

/// By how many times what is missing a hole is tried shallower: how much it helps depends on the
/// slope of the outside.
const STEPS: [f64; 4] = [1.0, 2.5, 6.0, 15.0];

fn is_hole(feature: &Feature) -> bool {
    matches!(
        feature.cut,
        Cut::Drill { .. } | Cut::Bore { .. } | Cut::Ream { .. } | Cut::Recess { .. }
    )
}
