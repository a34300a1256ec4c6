//! A part as it looks from outside: its turned form in its colours, its threads, a nib as a nib.

mod strips;

use super::nib::Leaf;
use super::not_round;
use super::seen::{Occluders, Seen};
use super::thread::span;
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Paint, Path, Scene, Shaded, Xy, darker};
use quillet_geometry::{Chain, Curve, Point};
use quillet_model::{Part, Solid};
use quillet_standards::thread::Hand;
use quillet_syntax::ast::Side;
use strips::{colour, strips};

/// Turns of a thread finer than this on paper run together, and are left out, mm.
const FINEST_MM: f64 = 0.25;

/// Shows a part in its colours.
pub(super) fn show(
    scene: &mut Scene,
    leaf: Option<&Leaf>,
    (part, solid): (&Part, &Solid),
    view: ViewTransform,
    seen: &Seen,
) {
    let shown = leaf.map_or(&solid.outer, |it| &it.outline);
    for (colour, strips) in strips(part, leaf, shown, view, seen) {
        scene.shaded(Shaded {
            colour,
            is_half: seen.is_half,
            axis_mm: view.origin.y,
            strips,
        });
    }
    let own = |z: f64| colour(part, leaf, z);
    not_round::paint(scene, (part, solid), view, seen, &own);
    turns(scene, part, view, seen);
    rims(scene, Layer::Rim, leaf, shown, view, seen);
    if let Some(leaf) = leaf {
        leaf.details(scene, view, seen);
    }
}

/// Shows its lines alone.
pub(super) fn lines(
    scene: &mut Scene,
    leaf: Option<&Leaf>,
    (part, solid): (&Part, &Solid),
    view: ViewTransform,
    seen: &Seen,
) {
    let shown = leaf.map_or(&solid.outer, |it| &it.outline);
    rims(scene, Layer::Outline, leaf, shown, view, seen);
    not_round::lines(scene, (part, solid), view, seen, Layer::Outline);
}

/// What of a short piece is seen: all of it, or from where something before it ends.
fn seen_of(piece: &Curve, seen: &Seen) -> Option<(Point, Point)> {
    let hidden = |t: f64| (seen.hides)(piece.point(t));
    let turn = |mut from: f64, mut to: f64| {
        let first = hidden(from);
        for _ in 0..20 {
            let middle = (from + to) / 2.0;
            if hidden(middle) == first {
                from = middle;
            } else {
                to = middle;
            }
        }
        piece.point((from + to) / 2.0)
    };
    let (near, far) = (0.001, 0.999);
    match (hidden(near), hidden(far)) {
        (false, false) => Some((piece.start(), piece.end())),
        (true, true) => None,
        (false, true) => Some((piece.start(), turn(near, far))),
        (true, false) => Some((turn(near, far), piece.end())),
    }
}

/// The turns of the threads outside, between their crests.
fn turns(scene: &mut Scene, part: &Part, view: ViewTransform, seen: &Seen) {
    for feature in &part.features {
        let Some((thread, Side::Outside)) = feature.thread() else {
            continue;
        };
        let form = &thread.thread;
        let (pitch, lead) = (form.pitch().to_mm(), form.lead().to_mm());
        if pitch * view.scale < FINEST_MM {
            continue;
        }
        let crest = form.major().to_mm() / 2.0;
        let [from, to] = span(part, feature);
        // Seen from the side, half a turn falls by half a lead: to the right where the thread is
        // right-handed.
        let (left, right) = (view.axis(from).x, view.axis(to).x);
        let (left, right) = (left.min(right), left.max(right));
        let falls = lead / 2.0 * view.scale * if form.hand() == Hand::Left { -1.0 } else { 1.0 };
        let (high, wide) = (crest * view.scale, pitch * view.scale);
        let count = ((right - left) / wide).ceil() as i64;
        let reach = (lead / pitch / 2.0).ceil() as i64;
        let mut paths = Vec::new();
        for turn in -reach..=count + reach {
            let x = left + (turn as f64 + 0.5) * wide;
            let (top, foot) = (
                Xy::new(x - falls / 2.0, high),
                Xy::new(x + falls / 2.0, -high),
            );
            let Some((top, foot)) = between(top, foot, left, right) else {
                continue;
            };
            let top = match seen.is_half {
                true if foot.y >= 0.0 => continue,
                true if top.y > 0.0 => top.towards(foot, top.y / (top.y - foot.y)),
                _ => top,
            };
            let station = (x - view.origin.x) / view.scale;
            let station = if view.flipped { -station } else { station };
            let station = station.clamp(from, to);
            if (seen.hides)(Point::new(station, crest)) {
                continue;
            }
            let on_paper = |at: Xy| Xy::new(at.x, view.origin.y + at.y);
            paths.push(Path::open(on_paper(top)).line(on_paper(foot)));
        }
        if !paths.is_empty() {
            let colour = colour(part, None, (from + to) / 2.0);
            let wide = (0.35 * wide).min(0.3);
            scene.paint(Paint {
                paths,
                fill: None,
                line: Some((darker(colour, 0.10), wide)),
            });
        }
    }
}

/// The stretch of a line between two places along the paper.
fn between(from: Xy, to: Xy, left: f64, right: f64) -> Option<(Xy, Xy)> {
    let run = to.x - from.x;
    if run.abs() < 1e-9 {
        return (left..=right).contains(&from.x).then_some((from, to));
    }
    let (one, two) = ((left - from.x) / run, (right - from.x) / run);
    let (low, high) = (one.min(two).max(0.0), one.max(two).min(1.0));
    (low < high).then(|| (from.towards(to, low), from.towards(to, high)))
}

/// Its silhouette, and each edge that is seen, right across.
fn rims(
    scene: &mut Scene,
    layer: Layer,
    leaf: Option<&Leaf>,
    outer: &Chain,
    view: ViewTransform,
    seen: &Seen,
) {
    let before = Occluders {
        hides: seen.hides,
        outline: layer,
        // Something may lie before it: what does is asked place by place.
        covers: &[Vec::new()],
    };
    for half in seen.halves() {
        before.stroke(scene, view, *half, outer);
    }
    let ends = [outer.start(), outer.end()];
    let turned = super::outline::edge_places(outer);
    for at in turned.into_iter().chain(ends) {
        let flat = leaf.is_some_and(|it| it.holds(at.z));
        if at.r < 1e-9 || flat || (seen.hides)(at) {
            continue;
        }
        let [upper, lower] = [Half::Upper, Half::Lower].map(|half| view.place(half, at));
        let top = if seen.is_half { view.axis(at.z) } else { upper };
        scene.line(layer, top, lower);
    }
}
