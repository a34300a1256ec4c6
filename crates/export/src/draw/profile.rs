//! The bare profile of a part, for a template or a machine.

use super::part::widest_mm;
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Path, Scene, Xy};
use quillet_model::Part;

/// The outside of a part at full size as one line, from the axis round to the axis: the station across,
/// from 0 at the first end, and the radius up; nothing else. Threads at their crests. None where its shape
/// is not known.
pub fn profile(part: &Part) -> Option<Scene> {
    let profiles = part.profiles.as_ref()?;
    let (length, radius) = (part.length.to_mm(), widest_mm(profiles));
    let view = ViewTransform::new(Xy::default(), 1.0);
    let outer = &profiles.crest.outer;
    let mut line = Path::open(view.axis(0.0));
    if outer.start().r > 0.0 {
        line = line.line(view.place(Half::Upper, outer.start()));
    }
    line.steps.extend(view.path(Half::Upper, outer).steps);
    if outer.end().r > 0.0 {
        line = line.line(view.axis(length));
    }
    let title = format!("{}, profile", part.name.text);
    let mut scene = Scene::new(title, length, radius);
    scene.stroke(Layer::Outline, line);
    Some(scene)
}
