//! The edit that drills a hole deeper.

use crate::{JointView, spots, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature, Spot};
use quillet_syntax::Edit;

/// Room left beyond what must go in, mm: a depth is not drilled to the tenth.
pub(super) const ROOM_MM: f64 = 0.5;

/// The cut at a place made deeper by at least `by_mm`, to the next half millimetre, with what it
/// does in words; none where no hole's depth is written there as a number.
pub(super) fn deeper(view: &JointView<'_>, spot: &Spot, by_mm: f64) -> Option<(String, Edit)> {
    let part = view.pen.pen.parts.get(spot.part)?;
    let hole = spots::feature(part, spot.origin)?;
    if part.bought || !is_hole(hole) || hole.through {
        return None;
    }
    let written = view.pen.design.text(hole.reach_span);
    let depth: f64 = written.parse().ok()?;
    let deeper = ((depth + by_mm) * 2.0).ceil() / 2.0;
    let text = Length::mm(deeper).mm_text(2);
    let title = format!("take {}'s {} to {text}", part.name.text, words::sized(hole));
    Some((
        title,
        Edit {
            span: hole.reach_span,
            text,
        },
    ))
}

fn is_hole(feature: &Feature) -> bool {
    matches!(
        feature.cut,
        Cut::Drill { .. } | Cut::Bore { .. } | Cut::Ream { .. }
    )
}
