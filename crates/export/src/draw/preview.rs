//! Small pictures, for hovers and previews.

use super::half::half_section;
use super::part::widest_mm;
use super::view::{Half, ViewTransform};
use crate::scene::{Scene, Xy};
use quillet_model::Part;

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
    half_section(&mut scene, view, part, profiles, Half::Lower);
    Some(scene)
}
