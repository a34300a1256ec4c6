//! What has changed of a pen: old under new.

use crate::draw;
use crate::write::{Background, svg};
use quillet_compare::PenChange;
use quillet_model::Configured;

/// A picture, what it shows, and a name for its file.
#[derive(Clone, Debug)]
pub struct ComparedPicture {
    /// `heron-section`
    pub name: String,
    /// What it shows.
    pub says: String,
    /// The picture.
    pub svg: String,
}

/// The pen in each way it is held, old under new, and each part whose shape differs; none where none does.
/// Radii are drawn `stretch` times as high; then that is said.
pub fn compared(pen: &PenChange, stretch: f64) -> Vec<ComparedPicture> {
    let Some(pair) = &pen.pair else {
        return Vec::new();
    };
    let parts = pair.parts();
    let differing: Vec<_> = parts
        .into_iter()
        .filter(|(was, is)| draw::differs(was, is))
        .collect();
    if differing.is_empty() {
        return Vec::new();
    }
    let name = &pen.name;
    let drawn = match stretch > 1.0 {
        true => format!("old under new, radii {stretch} times as high"),
        false => "old under new".to_owned(),
    };
    let mut all = Vec::new();
    let mut put = |what: &str, says: String, scene| {
        all.push(ComparedPicture {
            name: format!("{name}-{what}"),
            says,
            svg: svg(&scene, Background::Page),
        });
    };
    let both = [&pair.old, &pair.new].map(|(it, name)| it.design.pen(name));
    if let [Some(old), Some(new)] = both {
        for which in Configured::ALL {
            if let Some(scene) = draw::pen_overlay(old, new, which, stretch) {
                put(
                    which.word(),
                    format!("{name}, {}, {drawn}", which.word()),
                    scene,
                );
            }
        }
    }
    for (was, is) in differing {
        let part = &is.name.text;
        if let Some(scene) = draw::overlay(was, is, &[], pen.units, stretch) {
            put(part, format!("{part} of {name}, {drawn}"), scene);
        }
    }
    all
}
