//! Small pictures, for hovers and previews.

use super::half::half_section;
use super::part::widest_mm;
use super::view::ViewTransform;
use super::{Callout, overview, parts};
use crate::scene::{Scene, Xy};
use quillet_model::{Part, Pen, Units};

/// A part in half section without words, `width_mm` wide; none where its shape could not be resolved.
pub fn preview(part: &Part, width_mm: f64) -> Option<Scene> {
    let profiles = part.profiles.as_ref()?;
    let (length, radius) = (part.length.to_mm(), widest_mm(profiles));
    let margin = 5.0;
    // A short, wide part is not to become a tall picture.
    let scale = ((width_mm - 2.0 * margin) / length.max(1e-6))
        .min(width_mm / 3.0 / (2.0 * radius).max(1e-6));
    let (width, height) = (length * scale + 2.0 * margin, 2.0 * radius * scale + 4.0);
    let mut scene = Scene::new(part.name.text.to_string(), width, height);
    let view = ViewTransform::new(Xy::new(margin, height / 2.0), scale);
    half_section(&mut scene, view, part, profiles);
    Some(scene)
}

/// A pen put together, as far as it can be, and below it `beside` of its parts, all at one scale;
/// with what the numbers mean. None where nothing can be drawn.
pub fn preview_pen(
    pen: &Pen,
    beside: &[&Part],
    width_mm: f64,
    units: Units,
) -> Option<(Scene, Vec<Callout>)> {
    let whole = overview(pen, width_mm, units);
    let scale = whole.as_ref().map(|it| it.scale);
    let (whole, below) = match (whole, parts(beside, scale, width_mm, units)) {
        (Some(whole), Some(below)) => (whole, below),
        (Some(whole), None) => return Some((whole.scene, whole.callouts)),
        (None, below) => return below.map(|scene| (scene, Vec::new())),
    };
    let between = 5.0;
    let top = below.height_mm + between;
    let height = top + whole.scene.height_mm;
    let mut scene = Scene::new(whole.scene.title.clone(), width_mm, height);
    scene.place(&whole.scene, Xy::new(0.0, top));
    scene.place(&below, Xy::default());
    Some((scene, whole.callouts))
}
