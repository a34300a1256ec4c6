//! A mandrel at full size with its sizes and its own steps.

use super::canvas::{BODY, Canvas, FIGURE, LARGE, STRONG, VERB};
use crate::draw::mandrel;
use crate::scene::{Layer, Path};
use crate::sheet::content::Turning;
use quillet_plan::MandrelKind;

/// The longest drawn in full; the labels stand beside it.
const LONGEST: f64 = 48.0;
const LABELS: f64 = 54.0;
const LEADING: f64 = 4.3;
/// From a picture to its labels.
const NEAR: f64 = 16.0;
/// Between two labels.
const PITCH: f64 = 5.4;

/// How high its cell is.
pub(super) fn height(it: &Turning) -> f64 {
    let (scene, _) = mandrel(&it.mandrel, LONGEST);
    let steps: usize = it.steps.iter().map(|step| lines(step).len()).sum();
    8.6 + picture(it, scene.height_mm) + LEADING * steps as f64 + 1.6
}

fn picture(it: &Turning, scene: f64) -> f64 {
    let shown = it.sizes.iter().filter(|it| !it.is_empty()).count() as f64;
    let below = if is_pin(it) { 2.0 } else { 6.6 };
    (scene + below).max(shown * PITCH + 1.5)
}

/// A plain pin has no shank to speak of: its one size says all.
fn is_pin(it: &Turning) -> bool {
    it.mandrel.headless || (it.mandrel.kind == MandrelKind::Plug && it.mandrel.thread.is_none())
}

fn lines(step: &str) -> Vec<String> {
    BODY.lines(step, 81.0)
}

/// Sets it in a cell from its left upper corner.
pub(super) fn cell(page: &mut Canvas, it: &Turning, (x, top): (f64, f64), wide: f64) {
    page.rule(Layer::Outline, x, x + wide, top);
    let end = page.put(x, top + 7.0, LARGE, &it.letter);
    let set = BODY.fitting(&it.serves, wide - 12.0, &[10.0, 9.0, 8.0]);
    page.put(end + 2.5, top + 7.0, set, &it.serves);
    let (scene, steps) = mandrel(&it.mandrel, LONGEST);
    let room = picture(it, scene.height_mm);
    let left = x + 2.0;
    let below = if is_pin(it) { 1.0 } else { 5.6 };
    let upper = top + 8.6 + (room - below - scene.height_mm).max(0.0) / 2.0;
    page.place(&scene, left, upper);
    sizes(
        page,
        it,
        &steps,
        (left, upper, scene.width_mm, scene.height_mm),
        (top + 8.6, room),
    );
    if !is_pin(it) {
        shank(page, it, (left, upper), (scene.width_mm, scene.height_mm));
    }
    let mut at = top + 8.6 + room + 3.2;
    for (index, step) in it.steps.iter().enumerate() {
        let key = format!("mandrel {}/{index}", it.letter);
        page.tick_of((x, at - 2.9), 3.2, &key);
        for line in lines(step) {
            page.put(x + 5.0, at, BODY, &line);
            at += LEADING;
        }
    }
}

/// The shank: its size on it, its length below.
fn shank(page: &mut Canvas, it: &Turning, (left, upper): (f64, f64), (wide, high): (f64, f64)) {
    let shank = wide.min(it.mandrel.shank_length.to_mm());
    let size = format!("⌀{}", crate::write::number(it.mandrel.shank.to_mm(), 2));
    let axis = upper + high / 2.0;
    let set = FIGURE.fitting(&size, shank - 6.0, &[13.0, 11.0]);
    let half = set.width(&size) / 2.0 + 0.8;
    let middle = left + (shank * 0.45).max(half + 1.0);
    let corner = page.at(middle - half, axis + set.height_mm() * 0.5 + 0.7);
    let ground = Path::rectangle(corner, 2.0 * half, set.height_mm() + 1.4);
    page.scene.fill(Layer::View, vec![ground]);
    page.put_middle(middle, axis + set.height_mm() / 2.0, set, &size);
    let long = crate::write::number(it.mandrel.shank_length.to_mm(), 2);
    let level = upper + high + 3.0;
    let gap = STRONG.width(&long) / 2.0 + 1.0;
    let centre = left + shank / 2.0;
    page.rule(Layer::Dimension, left, centre - gap, level);
    page.rule(Layer::Dimension, centre + gap, left + shank, level);
    for at in [left, left + shank] {
        page.upright(Layer::Dimension, at, level - 2.4, level + 1.2);
    }
    page.put_middle(centre, level + STRONG.height_mm() / 2.0, STRONG, &long);
}

/// The sizes in a column, from the shoulder outward, each with a line to its place.
fn sizes(
    page: &mut Canvas,
    it: &Turning,
    steps: &[crate::scene::Xy],
    (left, upper, wide, high): (f64, f64, f64, f64),
    (top, room): (f64, f64),
) {
    let shown: Vec<(&String, &crate::scene::Xy)> = it
        .sizes
        .iter()
        .zip(steps)
        .filter(|it| !it.0.is_empty())
        .collect();
    let count = shown.len();
    let first = top + ((room - 5.0 - PITCH * count as f64) / 2.0).max(0.0) + 4.0;
    for (index, (size, place)) in shown.iter().enumerate() {
        let down = first + PITCH * index as f64;
        // Beside a short plug its sizes stand near it.
        let label = left - 2.0 + LABELS.min(wide + NEAR);
        let set = VERB.fitting(size, 87.0 - LABELS, &[11.0, 10.0, 9.0]);
        page.put(label, down, set, size);
        // Upper labels lead to the upper edge, lower ones to the lower.
        let above = index * 2 < count;
        let y = if above {
            upper + high - place.y
        } else {
            upper + place.y
        };
        let at = page.at(left + place.x, y);
        let foot = page.at(label - 1.0, down - set.height_mm() / 2.0);
        let line = Path::open(foot).line(foot.moved(-1.6, 0.0)).line(at);
        page.scene.stroke(Layer::Dimension, line);
        page.scene
            .fill(Layer::Dimension, vec![Path::circle(at, 0.45)]);
    }
}
