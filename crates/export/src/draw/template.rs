//! A profile template at full size, to cut out and hold against the work.

use super::part::widest_mm;
use super::view::{Half, ViewTransform};
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};
use quillet_model::{End, Part};

/// The outside of a part at 1:1 as a strip to cut out: the card keeps the shape's counterpart, with station
/// marks every 5 mm from the first end. None where its shape could not be resolved.
pub fn template(part: &Part) -> Option<Scene> {
    let profiles = part.profiles.as_ref().filter(|_| part.shaped)?;
    let (length, radius) = (part.length.to_mm(), widest_mm(profiles));
    let caption = format!("{}  1:1", part.name.text);
    let ends = [End::First, End::Second].map(|end| part.end_name(end).to_owned());
    let wide = |height: f64, words: &str| Text::new(Xy::default(), height, words).width_mm();
    let (title, names) = (
        wide(2.5, &caption),
        wide(2.0, &ends[0]) + wide(2.0, &ends[1]),
    );
    // On a short part the names of its ends stand below its own.
    let crowded = title + names + 6.0 > length;
    let margin = ((title.max(names + 3.0) + 2.0 - length) / 2.0).max(6.0);
    let card = if crowded { 18.0 } else { 14.0 };
    let (width, height) = (length + 2.0 * margin, radius + card + 8.0);
    let mut scene = Scene::new(
        format!("{}, profile template 1:1", part.name.text),
        width,
        height,
    );
    let view = ViewTransform::new(Xy::new(margin, 4.0), 1.0);
    let outer = profiles.turned();
    let top = view.origin.y + radius + card;
    let (start, end) = (view.axis(0.0), view.axis(length));
    // The card: above the profile, down to the axis at both ends.
    let mut edge = Path::open(start.moved(-margin + 1.0, 0.0)).line(start);
    edge = edge.line(view.place(Half::Upper, outer.start()));
    edge.steps.extend(view.path(Half::Upper, outer).steps);
    let corners = [
        end,
        end.moved(margin - 1.0, 0.0),
        Xy::new(end.x + margin - 1.0, top),
        Xy::new(start.x - margin + 1.0, top),
    ];
    let edge = corners.into_iter().fold(edge, Path::line).close();
    scene.stroke(Layer::Outline, edge);
    scene.line(
        Layer::Axis,
        start.moved(-margin, 0.0),
        end.moved(margin, 0.0),
    );
    stations(&mut scene, view, length, top);
    let [first, second] = ends;
    let below = if crowded { 13.5 } else { 9.5 };
    let middle = Xy::new((start.x + end.x) / 2.0, top - 9.5);
    scene.text(Text::new(middle, 2.5, caption).anchored(Anchor::Middle));
    // Where even they would meet, they stand further apart than the ends they name.
    let apart = ((names + 3.0 - length) / 2.0).max(0.0);
    let left = Xy::new(start.x - apart, top - below);
    let right = Xy::new(end.x + apart, top - below);
    scene.text(Text::new(left, 2.0, first));
    scene.text(Text::new(right, 2.0, second).anchored(Anchor::End));
    Some(scene)
}

fn stations(scene: &mut Scene, view: ViewTransform, length: f64, top: f64) {
    let count = (length / 5.0 + 1e-9).floor() as u32;
    for step in 0..=count {
        let z = f64::from(step) * 5.0;
        let x = view.axis(z).x;
        let tall = if step % 2 == 0 { 2.5 } else { 1.5 };
        scene.line(Layer::Dimension, Xy::new(x, top), Xy::new(x, top - tall));
        if step % 2 == 0 {
            let text = Text::new(Xy::new(x, top - 5.0), 1.8, format!("{z}"));
            scene.text(text.anchored(Anchor::Middle));
        }
    }
}
