//! The parts of a pen where they lie on the paper.

use super::view::ViewTransform;
use crate::scene::Xy;
use quillet_model::{Configuration, Part, PartId, Pen, Placement, Solid};

/// Where a pen in a configuration lies on the paper.
#[derive(Clone, Copy)]
pub(super) struct PenView<'a> {
    pub(super) pen: &'a Pen,
    pub(super) configuration: &'a Configuration,
    /// Where its foremost place lies on the axis.
    pub(super) origin: Xy,
    pub(super) scale: f64,
}

/// A part that is there.
#[derive(Clone, Copy)]
pub(super) struct Member<'a> {
    pub(super) id: PartId,
    pub(super) part: &'a Part,
    pub(super) solid: &'a Solid,
    pub(super) place: Placement,
    pub(super) view: ViewTransform,
    /// It is drawn in section.
    pub(super) cut: bool,
}

impl PenView<'_> {
    /// A station of a part on the axis; none where the part is not there.
    pub(super) fn axis(&self, part: PartId, station_mm: f64) -> Option<Xy> {
        let z = self.configuration.z_mm(part, station_mm)?;
        Some(self.origin.moved(z * self.scale, 0.0))
    }

    /// The parts that are there.
    pub(super) fn members(&self) -> Vec<Member<'_>> {
        let parts = self.pen.parts.with_ids();
        let there = parts.filter_map(|(id, part)| {
            let place = (*self.configuration.places.get(id)?)?;
            let solid = &part.profiles.as_ref()?.crest;
            let origin = self.origin.moved(place.offset_mm * self.scale, 0.0);
            let view = ViewTransform {
                flipped: place.reversed,
                ..ViewTransform::new(origin, self.scale)
            };
            Some(Member {
                id,
                part,
                solid,
                place,
                view,
                cut: !part.is_bought() || is_pierced(part, solid),
            })
        });
        there.collect()
    }
}

/// Whether a bore goes right through a part.
fn is_pierced(part: &Part, solid: &Solid) -> bool {
    let length = part.length.to_mm();
    solid.inner.iter().any(|bore| {
        let through = bore.start().z < 1e-6 && bore.end().z > length - 1e-6;
        let least = bore.segments().iter().map(|it| it.curve.bounds().min.r);
        through && least.fold(f64::INFINITY, f64::min) > 1e-6
    })
}
