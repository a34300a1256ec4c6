//! The template of a part at full size, to cut out and hold against the work: a card with the profile
//! cut out of its edge.

use super::part::widest_mm;
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Path, Scene, Xy};
use quillet_model::Part;

/// The card goes on beside the part by this much, and stands so high over it, mm.
pub(crate) const CARD_SIDE_MM: f64 = 10.0;
pub(crate) const CARD_ABOVE_MM: f64 = 4.2;

/// The card; station 0 lies [`CARD_SIDE_MM`] from its left edge. None where the part's shape is not known.
pub(crate) fn card(part: &Part) -> Option<Scene> {
    let profiles = part.profiles.as_ref().filter(|_| part.shaped)?;
    let (length, radius) = (part.length.to_mm(), widest_mm(profiles));
    let (width, height) = (length + 2.0 * CARD_SIDE_MM, radius + CARD_ABOVE_MM);
    let mut scene = Scene::new(format!("{}, template 1:1", part.name.text), width, height);
    let view = ViewTransform::new(Xy::new(CARD_SIDE_MM, 0.0), 1.0);
    let outer = &profiles.crest.outer;
    let (start, end) = (view.axis(0.0), view.axis(length));
    let mut edge = Path::open(Xy::new(0.0, 0.0)).line(start);
    edge = edge.line(view.place(Half::Upper, outer.start()));
    edge.steps.extend(view.path(Half::Upper, outer).steps);
    let corners = [
        end,
        Xy::new(width, 0.0),
        Xy::new(width, height),
        Xy::new(0.0, height),
    ];
    let edge = corners.into_iter().fold(edge, Path::line).close();
    scene.fill(Layer::View, vec![edge.clone()]);
    scene.stroke(Layer::Outline, edge);
    scene.line(Layer::Axis, Xy::new(-3.0, 0.0), Xy::new(width + 3.0, 0.0));
    for step in 0..=(length + 1e-6).floor() as u32 {
        let x = view.axis(f64::from(step)).x;
        let tall = match step {
            _ if step % 10 == 0 => 2.0,
            _ if step % 5 == 0 => 1.5,
            _ => 0.8,
        };
        scene.line(Layer::Hatch, Xy::new(x, height), Xy::new(x, height - tall));
    }
    Some(scene)
}
