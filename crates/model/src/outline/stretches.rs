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
    let goes_on = |it: &Stretch, next: &Stretch| {
        let (one, other) = match larger {
            true => (it.end, next.start),
            false => (it.start, next.end),
        };
        next.tag == it.tag && (other.z - one.z).abs() < SAME_MM
    };
    let ends = |(at, it): (usize, &Stretch)| {
        // Nearly always with one of its neighbours.
        let beside = all.get(at.saturating_sub(1)..(at + 2).min(all.len()));
        let beside = beside.unwrap_or_default();
        !beside.iter().chain(all).any(|next| goes_on(it, next))
    };
    let numbered = all.iter().enumerate();
    let ending = numbered.filter(|(at, it)| ends((*at, it)));
    ending.map(|it| *it.1).collect()
}
