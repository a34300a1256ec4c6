//! Necks: metal between two corners of which neither lies over the other nor looks at it along the axis.

use super::{Ordered, Pair, Wall, WallPiece, metal_between, wall};
use crate::chain::SAME;
use crate::{Approach, Point, Tag};
use std::collections::BTreeMap;

/// Whether two pieces aslant of each other can be the nearest there is: no wall is thicker than the
/// part's own radius there, and a corner is that of the surface, not of the face of the step to the next.
pub(super) fn may_be_near(one: &WallPiece, two: &WallPiece) -> bool {
    let (a, b) = (&one.bounds, &two.bounds);
    let surfaces = !(one.curve.is_vertical() || two.curve.is_vertical());
    surfaces && (a.min.z - b.max.z).max(b.min.z - a.max.z) < a.max.r.max(b.max.r)
}

/// The necks among pieces that are aslant of each other and are not among the `known` walls: the nearest
/// places of each pair of which each is the other's nearest, of all pieces that count with it.
pub(super) fn necks(
    aslant: Vec<Pair>,
    pieces: [&[WallPiece]; 2],
    ordered: &Ordered,
    counts: impl Fn(&WallPiece, &WallPiece) -> bool,
    known: &BTreeMap<(Tag, Tag), Wall>,
) -> Vec<Wall> {
    let [outside, inside] = pieces;
    let mut found: Vec<Wall> = Vec::new();
    for (one, two) in aslant {
        let near = one.curve.approach(&two.curve);
        let least_mm = near.distance_mm - SAME;
        let is_nearer = |piece: &WallPiece, to: Point| {
            let aside = (to.z - piece.bounds.max.z).max(piece.bounds.min.z - to.z);
            aside < least_mm && piece.curve.nearest(to).distance(to) < least_mm
        };
        let nearer = || {
            let mut inner = inside.iter().filter(|it| counts(one, it));
            let mut outer = outside.iter().filter(|it| counts(it, two));
            inner.any(|it| is_nearer(it, near.one)) || outer.any(|it| is_nearer(it, near.other))
        };
        let mut all = known.values().chain(&found);
        if all.any(|it| is_same(it, &near)) || !metal_between(ordered, &near) || nearer() {
            continue;
        }
        found.push(wall(one, two, (near.one.z, near.other.z), near));
    }
    found
}

fn is_same(wall: &Wall, near: &Approach) -> bool {
    wall.outer_at.distance(near.one) <= SAME && wall.inner_at.distance(near.other) <= SAME
}
