//! The half section: the outside above the axis, the cut below.

use super::outline;
use super::seen::ALONE;
use super::thread::{ThreadView, threads};
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Scene};
use quillet_model::{Part, Profiles};

/// Draws a part in half section.
pub(super) fn half_section(
    scene: &mut Scene,
    view: ViewTransform,
    part: &Part,
    profiles: &Profiles,
) {
    let solid = &profiles.crest;
    outline::section(scene, view, Half::Lower, (part, solid), 0, &ALONE);
    outline::glue_lines(scene, view, Half::Lower, part, solid, true, Layer::Outline);
    threads(
        scene,
        view,
        Half::Lower,
        part,
        solid,
        ThreadView::Cut,
        &ALONE,
    );
    outline::outside(scene, view, Half::Upper, solid, &ALONE);
    outline::glue_lines(scene, view, Half::Upper, part, solid, false, Layer::Outline);
    threads(
        scene,
        view,
        Half::Upper,
        part,
        solid,
        ThreadView::Outside,
        &ALONE,
    );
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
