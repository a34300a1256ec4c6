//! The half section: the outside above the axis, the cut below.

use super::faces::faces;
use super::outline;
use super::seen::ALONE;
use super::thread::{ThreadView, threads};
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Scene};
use quillet_model::{Part, Profiles};

/// Draws a part in half section: cut open in one half, from outside in the other.
pub(super) fn half_section(
    scene: &mut Scene,
    view: ViewTransform,
    part: &Part,
    profiles: &Profiles,
    cut: Half,
) {
    let (solid, whole) = (&profiles.crest, cut.other());
    outline::section(scene, view, cut, (part, solid), 0, &ALONE);
    outline::glue_lines(scene, view, cut, part, solid, true, Layer::Outline);
    threads(scene, view, cut, part, solid, ThreadView::Cut, &ALONE);
    outline::outside(scene, view, whole, solid, &ALONE);
    outline::glue_lines(scene, view, whole, part, solid, false, Layer::Outline);
    threads(scene, view, whole, part, solid, ThreadView::Outside, &ALONE);
    faces(scene, view, whole, profiles);
    axis(scene, view, part.length.to_mm());
}

/// The axis, past both ends.
pub(super) fn axis(scene: &mut Scene, view: ViewTransform, length_mm: f64) {
    let past = 4.0;
    scene.line(
        Layer::Axis,
        view.axis(0.0).moved(-past, 0.0),
        view.axis(length_mm).moved(past, 0.0),
    );
}
