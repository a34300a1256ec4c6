//! A part as it looks from outside: its turned form in its colours, its threads, a nib as a nib.

use super::nib::{self, Leaf};
use super::seen::{Occluders, Seen};
use super::thread::span;
use super::view::{Half, ViewTransform};
use crate::colours;
use crate::scene::{Layer, Paint, Path, Scene, Shaded, SlopeClass, Strip, Xy, darker};
use quillet_geometry::{Chain, Curve, Point};
use quillet_model::{Part, Solid};
use quillet_standards::Colour;
use quillet_standards::thread::Hand;
use quillet_syntax::ast::Side;

/// A strip is no longer than this along the profile, nor rises by more, mm on paper.
const LONG_MM: f64 = 0.8;
const RISES_MM: f64 = 0.08;
/// Strips that lie within so much are one, mm on paper: the outline may stray by no more.
const LEVEL_MM: f64 = 0.02;
/// How far a strip lies under the next, mm on paper: more than a screen's dot at life size, so that no
/// seam shows between them.
const UNDER_MM: f64 = 0.5;
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
    solid: &Solid,
    view: ViewTransform,
    seen: &Seen,
) {
    let shown = leaf.map_or(&solid.outer, |it| &it.outline);
    rims(scene, Layer::Outline, leaf, shown, view, seen);
}

/// What a place of a part is made of.
fn colour(part: &Part, leaf: Option<&Leaf>, z_mm: f64) -> Colour {
    match leaf.is_some_and(|it| it.holds(z_mm)) {
        true => nib::GOLD,
        false => colours::at(part, z_mm),
    }
}

/// The strips of what is seen, by colour, from left to right.
fn strips(
    part: &Part,
    leaf: Option<&Leaf>,
    outer: &Chain,
    view: ViewTransform,
    seen: &Seen,
) -> Vec<(Colour, Vec<Strip>)> {
    let mut pieces: Vec<Curve> = Vec::new();
    for segment in outer.segments() {
        let curve = &segment.curve;
        if curve.is_vertical() {
            continue;
        }
        for curve in at_glue(part, curve) {
            pieces.extend(cut(&curve, view.scale));
        }
    }
    let mut strips: Vec<(Colour, Strip)> = Vec::new();
    for piece in pieces {
        let Some((from, to)) = seen_of(&piece, seen) else {
            continue;
        };
        let place = |at: Point| {
            let x = view.axis(at.z).x;
            Xy::new(x, at.r * view.scale)
        };
        let (a, b) = (place(from), place(to));
        let (a, b) = if a.x <= b.x { (a, b) } else { (b, a) };
        if b.x - a.x < 1e-6 {
            continue;
        }
        let strip = Strip {
            slope: SlopeClass::of((b.y - a.y) / (b.x - a.x)),
            from: a,
            to: b,
            under: b,
        };
        strips.push((colour(part, leaf, (from.z + to.z) / 2.0), strip));
    }
    strips.sort_by(|one, two| one.1.from.x.total_cmp(&two.1.from.x));
    let mut strips = joined(strips);
    for at in 1..strips.len() {
        let next = strips[at].1;
        let strip = &mut strips[at - 1].1;
        let meets = (next.from.x - strip.to.x).abs() < 1e-6 && next.from.y > strip.to.y - 1e-6;
        if meets {
            let part = (UNDER_MM / (next.to.x - next.from.x)).min(1.0);
            let ahead = next.from.towards(next.to, part);
            // Never past the outline of what it lies under.
            strip.under = Xy::new(ahead.x, ahead.y.min(strip.to.y));
        }
    }
    let mut runs: Vec<(Colour, Vec<Strip>)> = Vec::new();
    for (colour, strip) in strips {
        match runs.last_mut().filter(|it| it.0 == colour) {
            Some(run) => run.1.push(strip),
            None => runs.push((colour, vec![strip])),
        }
    }
    runs
}

/// Strips that look alike and lie in one line, each as one.
fn joined(strips: Vec<(Colour, Strip)>) -> Vec<(Colour, Strip)> {
    let mut joined: Vec<(Colour, Strip)> = Vec::new();
    // Between which heights the last of them lies.
    let mut reach = (f64::MAX, f64::MIN);
    for (colour, strip) in strips {
        let [from, to] = [strip.from.y, strip.to.y];
        let own = (from.min(to), from.max(to));
        let both = (own.0.min(reach.0), own.1.max(reach.1));
        let alike = joined.last_mut().filter(|(before, last)| {
            let meets = (last.to.x - strip.from.x).abs() < 1e-6;
            let level = both.1 - both.0 <= LEVEL_MM;
            *before == colour && last.slope == strip.slope && meets && level
        });
        match alike {
            Some((_, last)) => {
                (last.to, last.under) = (strip.to, strip.to);
                reach = both;
            }
            None => {
                joined.push((colour, strip));
                reach = own;
            }
        }
    }
    joined
}

/// A curve cut where one piece of the blank is glued to the next.
fn at_glue(part: &Part, curve: &Curve) -> Vec<Curve> {
    let joints = part.blanks().iter().skip(1).map(|it| it.from.to_mm());
    let (from, to) = (curve.start().z, curve.end().z);
    let mut ends: Vec<f64> = joints.filter(|z| *z > from && *z < to).collect();
    ends.insert(0, from);
    ends.push(to);
    let pieces = ends.windows(2).filter_map(|it| curve.between(it[0], it[1]));
    pieces.collect()
}

/// A curve cut so finely that each piece is all but straight.
fn cut(curve: &Curve, scale: f64) -> Vec<Curve> {
    // By its own parameter, along which curves of the outside run evenly.
    let feel: Vec<Point> = (0..=32)
        .map(|at| curve.point(f64::from(at) / 32.0))
        .collect();
    let long: f64 = feel.windows(2).map(|it| it[0].distance(it[1])).sum::<f64>() * scale;
    let rise: f64 = feel
        .windows(2)
        .map(|it| (it[1].r - it[0].r).abs())
        .sum::<f64>()
        * scale;
    let count = match curve {
        Curve::Line(_) => (long / LONG_MM).min(rise / RISES_MM),
        _ => long / LONG_MM,
    };
    let count = (count.ceil() as u32).clamp(1, 2000);
    let share = |at: u32| f64::from(at) / f64::from(count);
    (0..count)
        .map(|at| curve.between_params(share(at), share(at + 1)))
        .collect()
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
