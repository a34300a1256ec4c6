//! A hole taken deeper.

use super::{Proposal, reach};
use crate::JointView;
use crate::spots;
use quillet_geometry::Length;
use quillet_model::{Cut, SurfacePoint, Units};

/// Room left beyond what must go in: a depth is not drilled to the tenth.
pub(crate) const ROOM: Length = Length::from_nm(500_000);

/// The hole at a place made deeper by at least so much, to a round figure.
pub(crate) fn deeper(view: &JointView<'_>, spot: &SurfacePoint, by: Length) -> Option<Proposal> {
    let part = view.pen.pen.parts.get(spot.part)?;
    let hole = spots::feature(part, spot.origin)?;
    let design = view.pen.design;
    matches!(
        hole.cut,
        Cut::Drill { .. } | Cut::Bore { .. } | Cut::Ream { .. }
    )
    .then(|| {
        reach(
            design,
            part,
            hole,
            round_up(design.units_at(part.span), hole.to + by),
        )
    })?
}

/// The next half millimetre, or fiftieth of an inch.
fn round_up(units: Units, depth: Length) -> Length {
    let step = match units {
        Units::Millimetres => Length::from_nm(500_000),
        Units::Inches => Length::inches(0.02),
    };
    let steps = (depth.nm() + step.nm() - 1).div_euclid(step.nm());
    step * steps
}
