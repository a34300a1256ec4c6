//! What bears the far end of the work.

use super::CENTRE_MM;
use super::placement::WorkPlacement;
use crate::scene::{Layer, Path, Scene};

/// A live centre of 60° in the centre hole.
pub(super) fn tail_centre(scene: &mut Scene, frame: &WorkPlacement, face: f64) {
    let at = |along: f64, radius: f64| {
        let tip = frame.place(face, 0.0);
        tip.moved((along - 1.6) * frame.scale, radius * frame.scale)
    };
    let cone = 60f64.to_radians() / 2.0;
    let wide = 7.0;
    let long = wide * cone.tan().recip() * 0.7;
    let places = [
        at(0.0, 0.0),
        at(long, long * cone.tan()),
        at(long + 2.0, long * cone.tan()),
        at(long + 2.0, wide),
        at(CENTRE_MM + 1.6, wide),
        at(CENTRE_MM + 1.6, -wide),
        at(long + 2.0, -wide),
        at(long + 2.0, -long * cone.tan()),
        at(long, -long * cone.tan()),
    ];
    scene.fill(Layer::Solid, vec![Path::polygon(&places)]);
}
