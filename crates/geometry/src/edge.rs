//! Edges broken by a chamfer or a round.

use crate::chain::SAME;
use crate::{Arc, Chain, Curve, Length, Point, Segment, Tag};

/// How a corner is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    /// An arc of this radius, tangent to both neighbours.
    Round(Length),
    /// A straight cut with legs of this length along both neighbours: 45° on a square corner.
    Chamfer(Length),
}

/// Which side of a chain the metal is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MetalSide {
    /// Towards the axis: an outside.
    Outside,
    /// Away from the axis: a bore.
    Bore,
}

/// Why a corner cannot be broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EdgeFlaw {
    /// There is no corner at that station.
    NoCorner,
    /// The neighbours are too short for it.
    TooLarge,
}

impl Chain {
    /// With the corner at a station broken, the new piece tagged `tag`.
    ///
    /// At a step it is the corner that stands out of the metal; at an end of the chain the corner
    /// with the end's face, which need not be in the chain.
    ///
    /// # Errors
    /// Where there is no corner, or where the edge does not fit on the pieces beside it.
    pub fn with_edge(
        &self,
        z_mm: f64,
        edge: Edge,
        side: MetalSide,
        tag: Tag,
    ) -> Result<Chain, EdgeFlaw> {
        let size = match edge {
            Edge::Round(radius) => radius.to_mm(),
            Edge::Chamfer(leg) => leg.to_mm(),
        };
        if size <= 0.0 {
            return Err(EdgeFlaw::NoCorner);
        }
        let mut pieces = self.segments().to_vec();
        let (start, end) = (self.start(), self.end());
        let faces = [
            at_start(&pieces, z_mm, side, size),
            at_end(&pieces, z_mm, side, size),
        ];
        pieces.splice(0..0, faces[0]);
        pieces.extend(faces[1]);

        let after = corner(&pieces, z_mm, side).ok_or(EdgeFlaw::NoCorner)?;
        let (before, next) = (pieces[after - 1].curve, pieces[after].curve);
        let (one, two) = match edge {
            Edge::Round(_) => tangent_places(&before, &next, size)?,
            Edge::Chamfer(_) => (
                param_at_distance(&before, before.end(), size, 1.0)?,
                param_at_distance(&next, next.start(), size, 0.0)?,
            ),
        };
        let (from, to) = (before.point(one), next.point(two));
        let cut = match edge {
            Edge::Chamfer(_) => Curve::line(from, to),
            Edge::Round(_) => {
                let convex = turn(&before, &next) < 0.0;
                Curve::Arc(Arc::circular(from, to, size, convex).ok_or(EdgeFlaw::TooLarge)?)
            }
        };
        pieces[after - 1].curve = before.between_params(0.0, one);
        pieces[after].curve = next.between_params(two, 1.0);
        pieces.insert(after, Segment { curve: cut, tag });

        let is_face = |segment: &Segment, end: Point| {
            segment.curve.is_vertical() && segment.curve.start().z == end.z
        };
        if faces[0].is_some() && pieces.first().is_some_and(|piece| is_face(piece, start)) {
            pieces.remove(0);
        }
        if faces[1].is_some() && pieces.last().is_some_and(|piece| is_face(piece, end)) {
            pieces.pop();
        }
        pieces.retain(|piece| piece.curve.start().distance(piece.curve.end()) > SAME);
        Chain::new(pieces).ok_or(EdgeFlaw::TooLarge)
    }
}

/// The face of the part at the chain's first station, where the edge is asked for there.
fn at_start(pieces: &[Segment], z: f64, side: MetalSide, size: f64) -> Option<Segment> {
    let first = pieces.first()?;
    let start = first.curve.start();
    let wanted = (start.z - z).abs() <= SAME && !first.curve.is_vertical();
    wanted.then(|| Segment {
        curve: Curve::line(Point::new(start.z, face_foot(start.r, side, size)), start),
        tag: first.tag,
    })
}

fn at_end(pieces: &[Segment], z: f64, side: MetalSide, size: f64) -> Option<Segment> {
    let last = pieces.last()?;
    let end = last.curve.end();
    let wanted = (end.z - z).abs() <= SAME && !last.curve.is_vertical();
    wanted.then(|| Segment {
        curve: Curve::line(end, Point::new(end.z, face_foot(end.r, side, size))),
        tag: last.tag,
    })
}

/// How far a face goes: to the axis under an outside, as far as is needed round a bore.
fn face_foot(r: f64, side: MetalSide, size: f64) -> f64 {
    match side {
        MetalSide::Outside => 0.0,
        MetalSide::Bore => r + 2.0 * size,
    }
}

/// The place in the chain of the piece after the corner.
fn corner(pieces: &[Segment], z: f64, side: MetalSide) -> Option<usize> {
    let reach = |at: usize| {
        let r = pieces[at].curve.start().r;
        if side == MetalSide::Outside { r } else { -r }
    };
    (1..pieces.len())
        .filter(|&at| (pieces[at].curve.start().z - z).abs() <= SAME)
        .filter(|&at| turn(&pieces[at - 1].curve, &pieces[at].curve).abs() > 1e-6)
        .max_by(|&a, &b| reach(a).total_cmp(&reach(b)))
}

/// The sine of the turn from one piece into the next, positive away from the axis.
fn turn(before: &Curve, next: &Curve) -> f64 {
    unit(before.tangent(1.0)).cross(unit(next.tangent(0.0)))
}

fn unit(way: Point) -> Point {
    let long = way.norm();
    if long > 0.0 { way * (1.0 / long) } else { way }
}

/// The parameter at a straight distance from an end, which is at `near`.
fn param_at_distance(curve: &Curve, end: Point, distance: f64, near: f64) -> Result<f64, EdgeFlaw> {
    let far = 1.0 - near;
    let whole = curve.point(far).distance(end);
    if whole < distance - SAME {
        return Err(EdgeFlaw::TooLarge);
    }
    if whole <= distance + SAME {
        return Ok(far);
    }
    if let Curve::Line(_) = curve {
        return Ok(near + (far - near) * distance / whole);
    }
    let (mut close, mut away) = (near, far);
    for _ in 0..60 {
        let middle = (close + away) / 2.0;
        if curve.point(middle).distance(end) < distance {
            close = middle
        } else {
            away = middle
        }
    }
    Ok((close + away) / 2.0)
}

/// The parameters at which a circle of this radius in the corner touches both pieces: where
/// their offsets meet, by Newton from the corner (at once for two lines).
fn tangent_places(before: &Curve, next: &Curve, radius: f64) -> Result<(f64, f64), EdgeFlaw> {
    let side = turn(before, next).signum() * radius;
    let centre = |curve: &Curve, t: f64| curve.point(t) + unit(curve.tangent(t)).left() * side;
    let pace = |curve: &Curve, t: f64| {
        let step = if t < 0.5 { 1e-6 } else { -1e-6 };
        (centre(curve, t + step) - centre(curve, t)) * (1.0 / step)
    };
    let (mut one, mut two) = (1.0, 0.0);
    for _ in 0..50 {
        let gap = centre(next, two) - centre(before, one);
        let (first, second) = (pace(before, one), pace(next, two));
        if gap.norm() < 1e-12 * (1.0 + radius) {
            break;
        }
        let area = first.cross(second);
        let step = (gap.cross(second) / area, gap.cross(first) / area);
        if !(step.0.is_finite() && step.1.is_finite()) {
            return Err(EdgeFlaw::TooLarge);
        }
        let before_step = (one, two);
        (one, two) = (
            (one + step.0).clamp(0.0, 1.0),
            (two + step.1).clamp(0.0, 1.0),
        );
        if before_step == (one, two) {
            break;
        }
    }
    let gap = centre(next, two).distance(centre(before, one));
    if gap <= 1e-9 {
        Ok((one, two))
    } else {
        Err(EdgeFlaw::TooLarge)
    }
}

#[cfg(test)]
mod tests;
