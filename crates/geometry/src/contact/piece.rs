//! The pieces of a chain by which it can touch its mate.

use crate::{Chain, Curve, Tag};

/// A piece that only comes nearer to the mate as `z` grows (a male's radius grows, a female's
/// falls), or one place.
pub(super) struct Piece {
    pub(super) tag: Tag,
    /// The tag by which it is excused.
    pub(super) passes_as: Tag,
    /// True where the piece before leads up to its start.
    pub(super) follows: bool,
    /// The radius of the corner at its start.
    pub(super) corner: f64,
    pub(super) shape: Option<Curve>,
    /// The first station.
    pub(super) at: f64,
    /// The radius at the first and the last station.
    pub(super) radius: (f64, f64),
}

impl Piece {
    pub(super) fn station_at(&self, r: f64) -> f64 {
        self.shape
            .map_or(self.at, |curve| curve.point(curve.param_at_r(r)).z)
    }
}

pub(super) fn male_pieces(chains: &[Chain]) -> Vec<Piece> {
    pieces(chains, |start, end| end > start, f64::max)
}

pub(super) fn female_pieces(chains: &[Chain]) -> Vec<Piece> {
    pieces(chains, |start, end| end < start, f64::min)
}

fn pieces(
    chains: &[Chain],
    nears: fn(f64, f64) -> bool,
    foremost: fn(f64, f64) -> f64,
) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for chain in chains {
        let segments = chain.segments();
        let mut follows = false;
        for (index, segment) in segments.iter().enumerate() {
            let is_face = segment.curve.is_vertical();
            let rises = nears(segment.curve.start().r, segment.curve.end().r);
            let before = index.checked_sub(1).and_then(|before| segments.get(before));
            // A face is the front of what it leads up to, or the back of what it leads away from.
            let beside = if rises {
                segments.get(index + 1)
            } else {
                before
            };
            let passes_as = beside
                .filter(|_| is_face)
                .map_or(segment.tag, |beside| beside.tag);
            let inherits = before.is_some_and(|before| before.tag == segment.tag);
            let tag = if inherits { passes_as } else { segment.tag };
            for curve in segment
                .curve
                .monotone_pieces()
                .iter()
                .flat_map(Curve::bent_to_one_side)
            {
                let (start, end) = (curve.start(), curve.end());
                let grows = nears(start.r, end.r);
                // Of a face only the foremost edge can touch, of a piece that draws back its start.
                let radius = match (is_face, grows) {
                    (true, _) => (foremost(start.r, end.r), foremost(start.r, end.r)),
                    (false, true) => (start.r, end.r),
                    (false, false) => (start.r, start.r),
                };
                pieces.push(Piece {
                    tag,
                    passes_as,
                    follows,
                    corner: start.r,
                    shape: (grows && !is_face).then_some(curve),
                    at: start.z,
                    radius,
                });
                follows = true;
            }
        }
    }
    pieces
}
