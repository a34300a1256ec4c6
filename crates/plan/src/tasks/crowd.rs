//! More cuts than an order is looked for among.

use crate::{PlanProblem, Unschedulable};
use quillet_model::{Cut, Feature, Part};
use quillet_syntax::ast::Side;
use std::mem::discriminant;

/// Each of these cuts is compared with each: of more than this in a part, where a pen's has a
/// dozen, no route is worked out.
pub const MOST_CUTS: usize = 1_000;

/// Told of a part with more holes and threads than an order is looked for among; equal holes that
/// follow one another are cut one after the other and count as one.
pub(crate) fn crowd(part: &Part) -> Option<PlanProblem> {
    let waits = |it: &Feature| {
        it.is_inside() && !matches!(it.cut, Cut::Edge(_))
            || it.thread().is_some_and(|(_, side)| side == Side::Outside)
    };
    let cuts = part.features.with_ids().filter(|(_, it)| waits(it));
    let mut before: Option<&Feature> = None;
    let mut distinct = cuts.filter(|(_, it)| {
        let same = |other: &Feature| {
            (it.end, it.from, it.to, it.through) == (other.end, other.from, other.to, other.through)
                && discriminant(&it.cut) == discriminant(&other.cut)
                && it.dia() == other.dia()
        };
        !before.replace(it).is_some_and(same) || !it.is_inside()
    });
    let (feature, _) = distinct.nth(MOST_CUTS)?;
    Some(PlanProblem::NoOrder {
        feature: Some(feature),
        why: Unschedulable::TooMany {
            count: MOST_CUTS + 1 + distinct.count(),
        },
    })
}
