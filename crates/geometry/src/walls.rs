//! Walls by zone: how much metal is left between what lies outside and what lies inside.

mod necks;

use std::collections::BTreeMap;

use crate::chain::SAME;
use crate::{Approach, Bounds, Chain, Curve, Point, Segment, Tag, put_in_order};
use necks::{may_be_near, necks};

/// The wall between two features that face each other, or the clearance between two parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// The feature on the outside.
    pub outer: Tag,
    /// The feature on the inside.
    pub inner: Tag,
    /// From this station, mm, one lies over the other …
    pub from_mm: f64,
    /// … to this one. Where they only face along the axis, the stations where they are nearest.
    pub to_mm: f64,
    /// The least true distance, mm; where the inside breaks through the outside, by how much it
    /// stands out there in radius, as zero or a negative number.
    pub least_mm: f64,
    /// The nearest place on the outside.
    pub outer_at: Point,
    /// The nearest place on the inside.
    pub inner_at: Point,
}

/// The walls between outer and inner chains, one for each pair of tags that face each other and
/// that `counts`, in order of station.
///
/// Two pieces face each other where one lies over the other, or where they look at each other
/// along the axis (a drill's point and a dome, a bore's bottom and a shoulder) with nothing but
/// metal between and no other bore nearer. A face that stands at the end of another piece adds nothing of its own.
/// Aslant of each other they are a wall where each is the other's nearest: the neck between a shoulder's
/// inner corner and the end of a bore that stops short of it.
pub fn walls(outer: &[Chain], inner: &[Chain], counts: impl Fn(Tag, Tag) -> bool) -> Vec<Wall> {
    let (outside, inside) = (boxed(outer), boxed(inner));
    let counts = |one: &WallPiece, two: &WallPiece| counts(one.tag, two.tag);
    let facing = Facing::of(&outside, &inside, counts);
    let ordered = Ordered {
        outer: InOrder::of(outer),
        inner: InOrder::of(inner),
    };
    let mut found: BTreeMap<(Tag, Tag), Wall> = BTreeMap::new();
    for (one, two) in facing.over {
        let wall = over(one, two, found.get(&(one.tag, two.tag)));
        note(&mut found, wall);
    }
    let mut along: Vec<Wall> = Vec::new();
    for (one, two) in facing.along {
        let known = found.get(&(one.tag, two.tag));
        if known.is_some_and(|wall| wall.least_mm <= one.bounds.distance(&two.bounds)) {
            continue;
        }
        let near = one.curve.approach(&two.curve);
        if metal_between(&ordered, &near) {
            let ends = known.map_or((near.one.z, near.other.z), |wall| {
                (wall.from_mm, wall.to_mm)
            });
            along.push(wall(one, two, ends, near));
        }
    }
    for wall in &along {
        let mut others = along.iter().chain(found.values());
        if !others.any(|other| shields(other, wall)) {
            note(&mut found, *wall);
        }
    }
    for neck in necks(facing.aslant, [&outside, &inside], &ordered, counts, &found) {
        note(&mut found, neck);
    }
    let mut walls: Vec<Wall> = found.into_values().collect();
    put_in_order(&mut walls, |it| it.from_mm);
    walls
}

/// An outer and an inner piece.
type Pair<'p> = (&'p WallPiece, &'p WallPiece);

/// The pairs that count, by how the one lies to the other.
struct Facing<'p> {
    /// One over the other.
    over: Vec<Pair<'p>>,
    /// Beyond each other along the axis.
    along: Vec<Pair<'p>>,
    /// Beyond each other along the axis and across it.
    aslant: Vec<Pair<'p>>,
}

impl<'p> Facing<'p> {
    fn of(
        outside: &'p [WallPiece],
        inside: &'p [WallPiece],
        counts: impl Fn(&WallPiece, &WallPiece) -> bool,
    ) -> Self {
        let (mut over, mut along, mut aslant) = (Vec::new(), Vec::new(), Vec::new());
        for one in outside {
            for two in inside.iter().filter(|two| counts(one, two)) {
                let (a, b) = (&one.bounds, &two.bounds);
                if overlap((a.min.z, a.max.z), (b.min.z, b.max.z)) {
                    over.push((one, two));
                } else if overlap((a.min.r, a.max.r), (b.min.r, b.max.r)) {
                    along.push((one, two));
                } else if may_be_near(one, two) {
                    aslant.push((one, two));
                }
            }
        }
        Self {
            over,
            along,
            aslant,
        }
    }
}

/// A piece with the box round it.
struct WallPiece {
    curve: Curve,
    tag: Tag,
    bounds: Bounds,
}

fn boxed(chains: &[Chain]) -> Vec<WallPiece> {
    let piece = |segment: &Segment| WallPiece {
        curve: segment.curve,
        tag: segment.tag,
        bounds: segment.curve.bounds(),
    };
    chains
        .iter()
        .flat_map(|chain| chain.segments())
        .map(piece)
        .collect()
}

/// True where two stretches share more than an end.
fn overlap(one: (f64, f64), other: (f64, f64)) -> bool {
    const MORE_THAN_AN_END: f64 = 1e-6;
    one.1.min(other.1) - one.0.max(other.0) > MORE_THAN_AN_END
}

fn wall(one: &WallPiece, two: &WallPiece, ends: (f64, f64), near: Approach) -> Wall {
    Wall {
        outer: one.tag,
        inner: two.tag,
        from_mm: ends.0.min(ends.1),
        to_mm: ends.0.max(ends.1),
        least_mm: near.distance_mm,
        outer_at: near.one,
        inner_at: near.other,
    }
}

/// The wall of two pieces of which one lies over the other; as far as it is known already where
/// this pair cannot be nearer.
fn over(one: &WallPiece, two: &WallPiece, known: Option<&Wall>) -> Wall {
    let (a, b) = (&one.bounds, &two.bounds);
    let ends = (a.min.z.max(b.min.z), a.max.z.min(b.max.z));
    if let Some(known) = known.filter(|known| known.least_mm <= a.distance(b)) {
        return Wall {
            from_mm: ends.0,
            to_mm: ends.1,
            ..*known
        };
    }
    let (gap, z) = if a.min.r > b.max.r + SAME {
        (f64::INFINITY, ends.0)
    } else {
        least_gap(&one.curve, &two.curve, ends)
    };
    if gap > 0.0 {
        return wall(one, two, ends, one.curve.approach(&two.curve));
    }
    let place = |curve: &Curve| Point::new(z, curve.radius_at(z));
    wall(
        one,
        two,
        ends,
        Approach {
            distance_mm: gap,
            one: place(&one.curve),
            other: place(&two.curve),
        },
    )
}

/// True where another bore lies on the way between the two places of a wall along the axis, and
/// nearer: behind a drill's point the steps further up the same bore are no walls.
fn shields(other: &Wall, wall: &Wall) -> bool {
    let (from, to) = (
        wall.outer_at.z.min(wall.inner_at.z),
        wall.outer_at.z.max(wall.inner_at.z),
    );
    let z = other.inner_at.z;
    other.outer == wall.outer
        && other.inner != wall.inner
        && other.least_mm < wall.least_mm
        && from < z
        && z < to
}

/// Joins a wall to what is known of its pair.
fn note(found: &mut BTreeMap<(Tag, Tag), Wall>, wall: Wall) {
    let joined = match found.get(&(wall.outer, wall.inner)) {
        Some(known) => {
            let least = if wall.least_mm < known.least_mm {
                wall
            } else {
                *known
            };
            Wall {
                from_mm: known.from_mm.min(wall.from_mm),
                to_mm: known.to_mm.max(wall.to_mm),
                ..least
            }
        }
        None => wall,
    };
    found.insert((wall.outer, wall.inner), joined);
}

/// The least difference in radius between two stations, and where.
fn least_gap(outer: &Curve, inner: &Curve, (from, to): (f64, f64)) -> (f64, f64) {
    let at = |z: f64| (outer.radius_at(z) - inner.radius_at(z), z);
    let least = |best: (f64, f64), next: (f64, f64)| if next.0 < best.0 { next } else { best };
    let ends = least(at(from), at(to));
    let turns = |curve: &Curve, line: Point| -> Vec<f64> {
        curve
            .parallel_to(line)
            .as_slice()
            .iter()
            .map(|t| curve.point(*t).z)
            .collect()
    };
    let between = match (outer, inner) {
        (Curve::Line(_), Curve::Line(_)) => Vec::new(),
        (curve, Curve::Line(line)) | (Curve::Line(line), curve) => {
            turns(curve, line.end - line.start)
        }
        _ => (1..64)
            .map(|part| from + (to - from) * f64::from(part) / 64.0)
            .collect(),
    };
    between
        .into_iter()
        .filter(|z| from < *z && *z < to)
        .map(at)
        .fold(ends, least)
}

/// Chains of which none lies over another, by where they start.
struct InOrder<'c>(Vec<&'c Chain>);

impl<'c> InOrder<'c> {
    fn of(chains: &'c [Chain]) -> Self {
        let mut chains: Vec<&Chain> = chains.iter().collect();
        put_in_order(&mut chains, |it| it.start().z);
        InOrder(chains)
    }

    /// As [`Chain::radii_at`], of the first that has the station.
    fn radii_at(&self, z_mm: f64) -> Option<(f64, f64)> {
        let until = self.0.partition_point(|chain| chain.start().z <= z_mm);
        let near = &self.0[until.saturating_sub(2)..until];
        near.iter().find_map(|chain| chain.radii_at(z_mm))
    }
}

/// What lies outside and what lies inside, each in order.
struct Ordered<'c> {
    outer: InOrder<'c>,
    inner: InOrder<'c>,
}

/// True where nothing but metal lies on the straight way between two nearest places.
fn metal_between(ordered: &Ordered, near: &Approach) -> bool {
    [0.25, 0.5, 0.75].iter().all(|part| {
        let place = near.one.towards(near.other, *part);
        let under = ordered
            .outer
            .radii_at(place.z)
            .is_some_and(|(before, after)| place.r <= before.min(after) + SAME);
        let over = ordered
            .inner
            .radii_at(place.z)
            .is_none_or(|(before, after)| place.r >= before.max(after) - SAME);
        under && over
    })
}

#[cfg(test)]
mod tests;
