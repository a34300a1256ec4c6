//! A pen taken apart, with its parts' names and what joins them, in order.

use super::framed::ROOM_MM;
use crate::draw;
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};
use crate::sheet::order;
use quillet_geometry::put_in_order;
use quillet_model::{Pen, Units};

/// Heights of a capital, mm: names, turns and the numbers in their rings.
const NAME_MM: f64 = 2.4;
const COUNT_MM: f64 = 2.4;
/// A ring's radius, mm.
const RING_MM: f64 = 2.6;
/// How far the rings, and the turns over them, stand above the parts, mm.
const RINGS_MM: f64 = 8.0;
const COUNTS_MM: f64 = 12.4;

/// A pen taken apart, at most so wide; none where it could not be put together.
pub fn exploded(pen: &Pen, width_mm: f64, units: Units) -> Option<Scene> {
    let (look, gaps) = draw::exploded(pen, width_mm - 2.0 * ROOM_MM)?;
    let bare = &look.scene;
    let (above, below) = (COUNTS_MM + COUNT_MM, 3.4 + NAME_MM);
    let (wide, high) = (
        bare.width_mm + 2.0 * ROOM_MM,
        bare.height_mm + above + below + 2.0 * ROOM_MM,
    );
    let title = format!("{}, taken apart", pen.title_or_name());
    let mut scene = Scene::new(title, wide, high);
    let at = Xy::new(ROOM_MM, ROOM_MM + below);
    scene.place(bare, at);
    let axis = at.y + bare.height_mm / 2.0;
    let counts = order(pen, units);
    let mut shown: Vec<(usize, f64)> = gaps
        .iter()
        .enumerate()
        .filter_map(|(joint, gap)| Some((joint, (*gap)? + at.x)))
        .collect();
    put_in_order(&mut shown, |it| it.1);
    let caption = |joint: usize| counts.get(joint).map_or("", |it| it.1.as_str());
    let text = |words: &str| Text::new(Xy::default(), COUNT_MM, words).bold();
    let widths: Vec<f64> = shown
        .iter()
        .map(|it| text(caption(it.0)).width_mm().max(2.0 * RING_MM))
        .collect();
    let wanted: Vec<f64> = shown.iter().map(|it| it.1).collect();
    let places = draw::spread_wide(&wanted, &widths, 2.5, wide);
    let top = at.y + bare.height_mm;
    for ((joint, gap), x) in shown.iter().zip(places) {
        let ring = Xy::new(x, top + RINGS_MM);
        scene.line(
            Layer::Dimension,
            ring.moved(0.0, -RING_MM),
            Xy::new(*gap, axis),
        );
        scene.stroke(Layer::Dimension, Path::circle(ring, RING_MM));
        let number = text(&(joint + 1).to_string());
        scene.text(middle(number, ring.moved(0.0, -COUNT_MM / 2.0)));
        scene.text(middle(text(caption(*joint)), Xy::new(x, top + COUNTS_MM)));
    }
    let names: Vec<Text> = look
        .parts
        .iter()
        .map(|(id, _)| {
            let name = pen.parts.get(*id).map_or("", |it| &it.name.text);
            Text::new(Xy::default(), NAME_MM, name.replace('-', " "))
        })
        .collect();
    let widths: Vec<f64> = names.iter().map(Text::width_mm).collect();
    let wanted: Vec<f64> = look.parts.iter().map(|it| it.1.x + at.x).collect();
    let places = draw::spread_wide(&wanted, &widths, 2.5, wide);
    for (name, x) in names.into_iter().zip(places) {
        scene.text(middle(name, Xy::new(x, ROOM_MM)));
    }
    Some(scene)
}

fn middle(text: Text, at: Xy) -> Text {
    Text { at, ..text }.anchored(Anchor::Middle)
}
