//! The outline that is left when several profiles are cut: least outside, greatest inside.

use crate::chain::SAME;
use crate::crossing::crossings;
use crate::{Chain, Curve, Point, Segment, Tag, put_in_order};

/// The smallest radius of all chains at each station: what is left of an outside.
///
/// One chain for each unbroken stretch that any chain covers. Pieces are cut exactly where chains
/// cross and keep their tags; of equals within 1e-9 mm the chain named first wins. Where the
/// radius jumps a face is put in, with the tag of a face that a chain has there, else of the
/// piece that removed more.
pub fn smallest(chains: &[Chain]) -> Vec<Chain> {
    envelope(chains, Bound::Smallest)
}

/// The greatest radius of all chains at each station: what has been bored.
///
/// As [`smallest`]; in addition a stretch that ends where another chain does not go on is closed
/// to the axis by a face (a flat bottom), but at the stations `from_mm` and `to_mm`, to which all
/// is clipped: there the bore is open.
pub fn greatest(chains: &[Chain], from_mm: f64, to_mm: f64) -> Vec<Chain> {
    let clipped: Vec<Chain> = chains
        .iter()
        .filter_map(|chain| chain.between(from_mm, to_mm))
        .collect();
    let close = |chain: Chain| {
        let first = chain
            .segments()
            .first()
            .map_or(Tag::default(), |segment| segment.tag);
        let last = chain
            .segments()
            .last()
            .map_or(Tag::default(), |segment| segment.tag);
        let chain = if chain.start().z > from_mm + SAME {
            chain.after_face(first, 0.0)
        } else {
            chain
        };
        if chain.end().z < to_mm - SAME {
            chain.before_face(last, 0.0)
        } else {
            chain
        }
    };
    envelope(&clipped, Bound::Greatest)
        .into_iter()
        .map(close)
        .collect()
}

#[derive(Clone, Copy, PartialEq)]
enum Bound {
    Smallest,
    Greatest,
}

impl Bound {
    /// True where `one` cuts away more than `other`.
    fn wins(self, one: f64, other: f64) -> bool {
        match self {
            Bound::Smallest => one < other,
            Bound::Greatest => one > other,
        }
    }

    /// The piece that cuts away more at a station; the first of equals.
    fn better(self, [first, second]: [&Segment; 2], z: f64) -> &Segment {
        if std::ptr::eq(first, second) {
            return first;
        }
        let (one, two) = (first.curve.radius_at(z), second.curve.radius_at(z));
        if (two - one).abs() > SAME && self.wins(two, one) {
            second
        } else {
            first
        }
    }
}

/// A stretch on which one piece of one chain is the outline.
#[derive(Clone, Copy)]
struct Stretch<'a> {
    from: f64,
    to: f64,
    segment: &'a Segment,
}

fn envelope(chains: &[Chain], side: Bound) -> Vec<Chain> {
    let mut faces: Vec<&Segment> = chains
        .iter()
        .flat_map(|chain| chain.segments())
        .filter(|segment| segment.curve.is_vertical())
        .collect();
    put_in_order(&mut faces, |it| it.curve.start().z);
    join(&faces, &least_of(chains, side), side)
}

/// The outline of chains, put together from those of their halves: n chains of one piece take
/// n log n steps, however they lie.
fn least_of(chains: &[Chain], side: Bound) -> Vec<Stretch<'_>> {
    match chains {
        [] => Vec::new(),
        [chain] => {
            let surface = chain
                .segments()
                .iter()
                .filter(|segment| !segment.curve.is_vertical());
            surface
                .map(|segment| Stretch {
                    from: segment.curve.start().z,
                    to: segment.curve.end().z,
                    segment,
                })
                .collect()
        }
        _ => {
            let (first, second) = chains.split_at(chains.len() / 2);
            merge(&least_of(first, side), &least_of(second, side), side)
        }
    }
}

fn merge<'a>(first: &[Stretch<'a>], second: &[Stretch<'a>], side: Bound) -> Vec<Stretch<'a>> {
    let mut stations: Vec<f64> = Vec::with_capacity(2 * (first.len() + second.len()));
    for stretch in first.iter().chain(second) {
        stations.extend([stretch.from, stretch.to]);
    }
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|next, before| *next - *before <= SAME);
    let mut merged: Vec<Stretch> = Vec::with_capacity(stations.len());
    let (mut one, mut two) = (first.iter().peekable(), second.iter().peekable());
    for pair in stations.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        let over = [covering(&mut one, from, to), covering(&mut two, from, to)];
        let (cuts, over) = match over {
            [Some(one), Some(two)] => (crossings(&one.curve, &two.curve), [one, two]),
            [Some(only), None] | [None, Some(only)] => (Vec::new(), [only, only]),
            [None, None] => continue,
        };
        let mut start = from;
        for end in cuts
            .into_iter()
            .filter(|z| from + SAME < *z && *z < to - SAME)
            .chain([to])
        {
            push(
                &mut merged,
                Stretch {
                    from: start,
                    to: end,
                    segment: side.better(over, (start + end) / 2.0),
                },
            );
            start = end;
        }
    }
    merged
}

/// The piece that covers a stretch between two neighbouring stations; earlier ones are passed.
fn covering<'a>(
    stretches: &mut std::iter::Peekable<std::slice::Iter<'_, Stretch<'a>>>,
    from: f64,
    to: f64,
) -> Option<&'a Segment> {
    while stretches
        .next_if(|stretch| stretch.to < to - SAME)
        .is_some()
    {}
    stretches
        .peek()
        .filter(|stretch| stretch.from <= from + SAME)
        .map(|stretch| stretch.segment)
}

/// Adds a stretch, or lengthens the last where it goes on with the same piece.
fn push<'a>(stretches: &mut Vec<Stretch<'a>>, stretch: Stretch<'a>) {
    match stretches.last_mut() {
        Some(last) if std::ptr::eq(last.segment, stretch.segment) && last.to == stretch.from => {
            last.to = stretch.to
        }
        _ => stretches.push(stretch),
    }
}

/// Chains from stretches, with faces where the radius jumps.
fn join(faces: &[&Segment], stretches: &[Stretch], side: Bound) -> Vec<Chain> {
    let mut joined: Vec<Vec<Segment>> = Vec::new();
    let mut end: Option<(Point, Tag)> = None;
    for stretch in stretches {
        let Some(curve) = stretch.segment.curve.between(stretch.from, stretch.to) else {
            continue;
        };
        let tag = stretch.segment.tag;
        match (end, joined.last_mut()) {
            (Some((place, before)), Some(chain))
                if (place.z - curve.start().z).abs() <= 2.0 * SAME =>
            {
                let start = curve.start();
                if (place.r - start.r).abs() > SAME {
                    let removed_more = if side.wins(place.r, start.r) {
                        before
                    } else {
                        tag
                    };
                    let face = Curve::line(place, Point::new(place.z, start.r));
                    let tag =
                        face_tag(faces, place.z, (place.r + start.r) / 2.0).unwrap_or(removed_more);
                    chain.push(Segment { curve: face, tag });
                }
                chain.push(Segment { curve, tag });
            }
            _ => {
                let mut chain = Vec::with_capacity(2 * stretches.len());
                chain.push(Segment { curve, tag });
                joined.push(chain);
            }
        }
        end = Some((curve.end(), tag));
    }
    joined.into_iter().filter_map(Chain::new).collect()
}

/// The tag of a face that a chain has at this place, of faces in order of station.
fn face_tag(faces: &[&Segment], z: f64, r: f64) -> Option<Tag> {
    let from = faces.partition_point(|face| face.curve.start().z < z - SAME);
    let here = faces[from..]
        .iter()
        .take_while(|face| face.curve.start().z <= z + SAME);
    let mut holding = here.filter(|face| {
        let (start, end) = (face.curve.start().r, face.curve.end().r);
        start.min(end) <= r && r <= start.max(end)
    });
    holding.next().map(|face| face.tag)
}

#[cfg(test)]
mod tests;
