//! A part by itself, as it looks.

use super::member::PenView;
use super::nib;
use super::part::widest_mm;
use super::seen::WHOLE;
use super::shade;
use super::view::ViewTransform;
use crate::scene::{Scene, Xy};
use quillet_model::{Configured, Part, Pen};

/// A part from outside in its colours at full size, and no larger; a pen's nib as one. None where its shape
/// is not known.
pub fn alone(pen: Option<&Pen>, part: &Part) -> Option<Scene> {
    let profiles = part.profiles.as_ref()?;
    let (long, radius) = (part.length.to_mm(), widest_mm(profiles));
    if long <= 0.0 || radius <= 0.0 {
        return None;
    }
    let leaf = pen.and_then(|pen| {
        let configuration = pen.assembly.configuration(Configured::Uncapped)?;
        let view = PenView {
            pen,
            configuration,
            origin: Xy::default(),
            scale: 1.0,
        };
        let members = view.members();
        let member = members
            .iter()
            .find(|it| it.part.name.text == part.name.text)?;
        nib::leaf(pen, member)
    });
    let mut scene = Scene::new(part.name.text.to_string(), long, 2.0 * radius);
    let view = ViewTransform::new(Xy::new(0.0, radius), 1.0);
    shade::show(
        &mut scene,
        leaf.as_ref(),
        (part, &profiles.crest),
        view,
        &WHOLE,
    );
    Some(scene)
}
