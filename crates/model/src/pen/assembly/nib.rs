//! Which part of a pen writes: one notion for all that asks.

use super::Body;
use super::group::Groups;
use crate::{PartId, Parts};

/// What is bought and stands out furthest at the writing end of the open pen; none where what
/// stands out there is cut, a clip, a ring or a spring.
pub(super) fn of(parts: &Parts, open: &Groups, body: &Body) -> Option<PartId> {
    let backward = runs_backward(open, body);
    let front = |index: &PartId| {
        let place = open.place(*index);
        let (a, b) = (place.of(0.0), place.of(parts[*index].length.to_mm()));
        if backward { -a.max(b) } else { a.min(b) }
    };
    let foremost = open
        .with(body.part)
        .min_by(|a, b| front(a).total_cmp(&front(b)))?;
    let part = &parts[foremost];
    let writes = part.is_bought()
        && part.arm().is_none()
        && part.ends.is_some()
        && part.length_free == part.length;
    writes.then_some(foremost)
}

/// Sets what writes further out, by so many millimetres, than where its joint places it.
pub(super) fn set_out(open: &mut Groups, body: &Body, nib: Option<PartId>, by_mm: f64) {
    if let Some(nib) = nib.filter(|_| by_mm != 0.0) {
        let way = if runs_backward(open, body) { 1.0 } else { -1.0 };
        open.shift(nib, way * by_mm);
    }
}

/// Whether the group's axis runs toward the writing point.
fn runs_backward(open: &Groups, body: &Body) -> bool {
    open.place(body.part).reversed != body.reversed
}
