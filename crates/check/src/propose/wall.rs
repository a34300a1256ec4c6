//! More wall: a fatter outside, a shallower hole, a smaller one.

use super::{Proposal, fatter, hole, reach, turned_to};
use crate::{PartView, Role, Wall};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature, Origin};

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
        hole(part, inner, units.down(dia))
    });
    let mut proposals: Vec<Proposal> = Vec::new();
    if wall.role == Role::End {
        proposals.extend(shallower);
        return proposals;
    }
    proposals.extend(outside);
    proposals.extend(shallower);
    proposals.extend(smaller);
    proposals
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
