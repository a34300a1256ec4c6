use super::*;
use crate::scene::{Path, PathElement, Xy};
use std::f64::consts::PI;

#[test]
fn a_quarter_turn_left_is_drawn_upwards() {
    let mut scene = Scene::new("a < b", 20.0, 10.0);
    let quarter = PathElement::Arc {
        centre: Xy::new(5.0, 5.0),
        semi: Xy::new(3.0, 2.0),
        from_rad: 0.0,
        sweep_rad: PI / 2.0,
        to: Xy::new(5.0, 7.0),
    };
    scene.stroke(Layer::Outline, Path::open(Xy::new(8.0, 5.0)).then(quarter));
    let text = svg(&scene, Background::Paper);
    assert!(text.contains("M8 5A3 2 0 0 0 5 3"), "{text}");
    assert!(text.contains("<title>a &lt; b</title>"));
    assert!(text.contains("width=\"20mm\" height=\"10mm\" viewBox=\"0 0 20 10\""));
}
