//! A look with room around it.

use crate::draw::Look;
use crate::scene::{Scene, Xy};

/// Room around a picture, mm: a hand's breadth of paper less than a margin.
pub(super) const ROOM_MM: f64 = 6.0;

/// A look on paper of its own, true size unless it says otherwise.
pub fn framed(look: &Look, title: &str) -> Scene {
    let bare = &look.scene;
    let (wide, high) = (
        bare.width_mm + 2.0 * ROOM_MM,
        bare.height_mm + 2.0 * ROOM_MM,
    );
    let mut scene = Scene::new(format!("{title}, {}", bare.title), wide, high);
    scene.place(bare, Xy::new(ROOM_MM, ROOM_MM));
    scene
}
