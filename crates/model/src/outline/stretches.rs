//! A surface cut into stretches that are straight, or as good as straight.

use quillet_geometry::{Chain, Curve, Point, Tag};

/// A short stretch of a surface, on its part's own stations.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stretch {
    pub(crate) start: Point,
    pub(crate) end: Point,
    pub(crate) tag: Tag,
}

/// Into how many stretches a cone or a curve is cut where a stretch may slope.
pub(super) fn straight(curve: &Curve) -> usize {
    match curve {
        Curve::Line(_) => 1,
        _ => 32,
    }
}

/// Into how many where a stretch counts as a cylinder.
pub(super) fn short(_: &Curve) -> usize {
    16
}

/// The surface in stretches: a cylinder is one, and faces are left out.
pub(super) fn stretches(chains: &[Chain], parts: fn(&Curve) -> usize) -> Vec<Stretch> {
    let mut found = Vec::new();
    for segment in chains.iter().flat_map(Chain::segments) {
        let curve = &segment.curve;
        if curve.is_vertical() {
            continue;
        }
        let parts = match curve {
            Curve::Line(line) if line.start.r == line.end.r => 1,
            _ => parts(curve),
        };
        let at = |part: usize| curve.point(part as f64 / parts as f64);
        found.reserve(parts);
        let mut start = at(0);
        for part in 1..=parts {
            let end = at(part);
            found.push(Stretch {
                start,
                end,
                tag: segment.tag,
            });
            start = end;
        }
    }
    found
}

/// Nearer than this, mm, a stretch goes on in another.
const SAME_MM: f64 = 1e-9;

/// The stretches whose surface does not go on in another, towards larger stations or smaller.
pub(super) fn ending(all: &[Stretch], larger: bool) -> Vec<Stretch> {
    let goes_on = |one: &Stretch, next: &Stretch| {
        next.tag == one.tag && (next.start.z - one.end.z).abs() < SAME_MM
    };
    // Nearly all go on in their neighbour.
    let runs = all.chunk_by(goes_on);
    let ends = runs.filter_map(|run| Some((run.first()?, run.last()?)));
    let ends: Vec<(&Stretch, &Stretch)> = ends.collect();
    let ending = ends.iter().filter_map(|(first, last)| {
        let (it, goes_on) = match larger {
            true => (last, ends.iter().any(|(next, _)| goes_on(last, next))),
            false => (first, ends.iter().any(|(_, before)| goes_on(before, first))),
        };
        (!goes_on).then_some(**it)
    });
    ending.collect()
}
