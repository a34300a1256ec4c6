//! Which part of a pen writes: one notion for all that asks.

use super::Body;
use super::group::Groups;
use crate::{PartId, Parts};

/// What is bought and stands out furthest at the writing end of the open pen; none where what
/// stands out there is cut, a clip, a ring or a spring.
pub(super) fn of(parts: &Parts, open: &Groups, body: &Body) -> Option<PartId> {
    let backward = open.place(body.part).reversed != body.reversed;
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
