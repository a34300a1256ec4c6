//! The strips of one colour that a part is drawn in.

use super::super::nib::{self, Leaf};
use super::super::seen::Seen;
use super::super::view::ViewTransform;
use super::seen_of;
use crate::colours;
use crate::scene::{SlopeClass, Strip, Xy};
use quillet_geometry::{Chain, Curve, Point, put_in_order};
use quillet_model::Part;
use quillet_standards::Colour;

/// A strip is no longer than this along the profile, nor rises by more, mm on paper.
const LONG_MM: f64 = 0.8;

const RISES_MM: f64 = 0.08;
/// Strips that lie within so much are one, mm on paper: the outline may stray by no more.
const LEVEL_MM: f64 = 0.02;
/// How far a strip lies under the next, mm on paper: more than a screen's dot at life size, so that no
/// seam shows between them.
const UNDER_MM: f64 = 0.5;

/// What a place of a part is made of.
pub(super) fn colour(part: &Part, leaf: Option<&Leaf>, z_mm: f64) -> Colour {
    match leaf.is_some_and(|it| it.holds(z_mm)) {
        true => nib::GOLD,
        false => colours::at(part, z_mm),
    }
}

/// The strips of what is seen, by colour, from left to right.
pub(super) fn strips(
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
    put_in_order(&mut strips, |it| it.1.from.x);
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
