//! A nib, as far as it is known: a leaf within the room it takes, slit to where it breathes.

use super::member::Member;
use super::seen::Seen;
use super::view::{Half, ViewTransform};
use crate::scene::{Paint, Path, Scene, Xy};
use quillet_geometry::{Chain, Point, Tag};
use quillet_model::Pen;
use quillet_standards::Colour;

/// What a nib is shown as.
pub(super) const GOLD: Colour = Colour::new(0xc9, 0xa2, 0x4a);
const SLIT: Colour = Colour::new(0x3b, 0x2f, 0x10);

/// How wide a leaf is from its point to its foot, as shares of its length and of its greatest
/// room: a common nib, drawn; nothing is made by it.
const LEAF: [(f64, f64); 11] = [
    (0.0, 0.07),
    (0.02, 0.11),
    (0.053, 0.15),
    (0.133, 0.29),
    (0.267, 0.55),
    (0.4, 0.80),
    (0.51, 0.94),
    (0.6, 0.98),
    (0.69, 0.94),
    (0.8, 0.85),
    (1.0, 0.76),
];

/// What is narrower than this off its axis is a ball's or a fibre's holder, and no leaf, mm.
const NARROWEST_MM: f64 = 2.0;

/// How much of the unit's length the slit takes.
const SLIT_SHARE: f64 = 0.29;

/// The leaf of a nib, on its part's stations.
pub(super) struct Leaf {
    /// The part's outline with the leaf in it.
    pub(super) outline: Chain,
    /// Where its point and its foot are.
    point_mm: f64,
    foot_mm: f64,
    /// Where the slit ends, and how wide the leaf is there.
    breathes_mm: f64,
    wide_mm: f64,
}

/// The nib of a pen, as `nib-strikes-cap` finds it: what is bought, goes foremost and holds no ink of its own;
/// none of anything else.
pub(super) fn leaf(pen: &Pen, member: &Member) -> Option<Leaf> {
    if pen.assembly.nib != Some(member.id) || !member.part.is_bought() {
        return None;
    }
    if member.part.holds_ml().is_some() {
        return None;
    }
    let (long, outer) = (member.part.length.to_mm(), &member.solid.outer);
    let is_first = member.place.of(0.0) < member.place.of(long);
    // It ends at the first shoulder behind its point.
    let steps = outer.segments().iter().filter(|it| it.curve.is_vertical());
    let stations = steps.map(|it| it.curve.start().z);
    let inside = stations.filter(|z| *z > 1.0 && *z < long - 1.0);
    let foot = match is_first {
        true => inside.reduce(f64::min).unwrap_or(long),
        false => inside.reduce(f64::max).unwrap_or(0.0),
    };
    let point = if is_first { 0.0 } else { long };
    let room = |z: f64| outer.least_at(z).unwrap_or(0.0);
    let leaf_long = (foot - point).abs();
    let at = |share: f64| point + (foot - point) * share;
    let most = (0..=50).map(|it| room(at(f64::from(it) / 50.0)));
    let most = most.fold(0.0, f64::max);
    if leaf_long < 3.0 || most < NARROWEST_MM {
        return None;
    }
    const PIECES: u32 = 40;
    let radius = |share: f64| (most * width(share)).min(room(at(share)));
    let leaf = (0..=PIECES).map(|it| f64::from(it) / f64::from(PIECES));
    let mut places: Vec<Point> = leaf
        .map(|share| {
            // At its foot the leaf has the room before the shoulder.
            let felt = share.min(1.0 - 1e-6);
            Point::new(at(share), radius(felt))
        })
        .collect();
    let mut rest: Vec<Point> = Vec::new();
    for segment in outer.segments() {
        let ends = [segment.curve.start(), segment.curve.end()];
        let behind = ends.iter().all(|it| match is_first {
            true => it.z > foot - 1e-9,
            false => it.z < foot + 1e-9,
        });
        if behind {
            rest.extend(ends);
        }
    }
    if is_first {
        places.extend(rest);
    } else {
        places.reverse();
        rest.extend(places);
        places = rest;
    }
    places.dedup_by(|a, b| a.distance(*b) < 1e-9);
    let breathes = (SLIT_SHARE * long).min(0.6 * leaf_long);
    Some(Leaf {
        outline: Chain::polyline(Tag(0), &places)?,
        point_mm: point,
        foot_mm: foot,
        breathes_mm: at(breathes / leaf_long),
        wide_mm: radius(breathes / leaf_long),
    })
}

impl Leaf {
    /// Whether a station lies on the leaf.
    pub(super) fn holds(&self, z_mm: f64) -> bool {
        let (low, high) = (
            self.point_mm.min(self.foot_mm),
            self.point_mm.max(self.foot_mm),
        );
        z_mm > low - 1e-9 && z_mm < high - 1e-9
    }

    /// Its slit and its breather hole.
    pub(super) fn details(&self, scene: &mut Scene, view: ViewTransform, seen: &Seen) {
        if seen.is_half || (seen.hides)(Point::new(self.breathes_mm, self.wide_mm)) {
            return;
        }
        let place = |z: f64| view.place(Half::Upper, Point::new(z, 0.0));
        let hole = place(self.breathes_mm);
        let slit = Path::open(place(self.point_mm)).line(hole);
        scene.paint(Paint {
            paths: vec![slit],
            fill: None,
            line: Some((SLIT, (0.18 * view.scale).max(0.1))),
        });
        let radius = (0.16 * self.wide_mm * view.scale).max(0.2);
        let semi = Xy::new(radius, radius);
        scene.paint(Paint {
            paths: vec![Path::ellipse(hole, semi)],
            fill: Some(SLIT),
            line: None,
        });
    }
}

/// The leaf's width at a share of its length, without a corner (Catmull and Rom's curve).
fn width(share: f64) -> f64 {
    let next = LEAF
        .partition_point(|it| it.0 < share)
        .clamp(1, LEAF.len() - 1);
    let place = |at: usize| LEAF[at.min(LEAF.len() - 1)];
    let [a, b, c, d] = [
        place(next.saturating_sub(2)),
        place(next - 1),
        place(next),
        place(next + 1),
    ];
    let span = c.0 - b.0;
    let part = (share - b.0) / span;
    let slope = |one: (f64, f64), two: (f64, f64)| match two.0 - one.0 {
        run if run > 0.0 => (two.1 - one.1) / run * span,
        _ => 0.0,
    };
    let (into, out) = (slope(a, c), slope(b, d));
    let (square, cube) = (part * part, part * part * part);
    (2.0 * cube - 3.0 * square + 1.0) * b.1
        + (cube - 2.0 * square + part) * into
        + (3.0 * square - 2.0 * cube) * c.1
        + (cube - square) * out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_leaf_passes_through_its_places_and_stays_within_its_room() {
        for (share, wide) in LEAF {
            assert!((width(share) - wide).abs() < 1e-9, "{share}");
        }
        for step in 0..=1000 {
            let wide = width(f64::from(step) / 1000.0);
            assert!((0.05..=1.0).contains(&wide), "{step}: {wide}");
        }
    }
}
