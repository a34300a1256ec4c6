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
mod tests {
    use super::*;
    use crate::{Cubic, Properties};
    use std::f64::consts::PI;

    fn line(places: &[(f64, f64)]) -> Chain {
        let places: Vec<Point> = places.iter().map(|&(z, r)| Point::new(z, r)).collect();
        Chain::polyline(Tag(0), &places).unwrap()
    }

    fn places(chain: &Chain) -> Vec<(f64, f64)> {
        let round = |value: f64| (value * 1e9).round() / 1e9;
        let end = chain.segments().last().map(|piece| piece.curve.end());
        let starts = chain
            .segments()
            .iter()
            .map(|piece| piece.curve.start())
            .chain(end);
        starts
            .map(|place| (round(place.z), round(place.r)))
            .collect()
    }

    #[test]
    fn a_chamfer_breaks_the_ends_of_a_rod_and_the_mouth_of_a_bore() {
        let half = Edge::Chamfer(Length::mm(0.5));
        let rod = line(&[(0.0, 6.0), (40.0, 6.0)]);
        let both = rod
            .with_edge(0.0, half, MetalSide::Outside, Tag(1))
            .unwrap()
            .with_edge(40.0, half, MetalSide::Outside, Tag(2))
            .unwrap();
        assert_eq!(
            places(&both),
            [(0.0, 5.5), (0.5, 6.0), (39.5, 6.0), (40.0, 5.5)]
        );
        assert_eq!(both.segments()[2].tag, Tag(2));
        let mouth = rod.with_edge(0.0, half, MetalSide::Bore, Tag(1)).unwrap();
        assert_eq!(places(&mouth), [(0.0, 6.5), (0.5, 6.0), (40.0, 6.0)]);
    }

    #[test]
    fn at_a_step_the_corner_that_stands_out_is_broken() {
        let edge = Edge::Chamfer(Length::mm(0.3));
        let up = line(&[(0.0, 5.0), (8.0, 5.0), (8.0, 7.0), (20.0, 7.0)]);
        let wanted = [(0.0, 5.0), (8.0, 5.0), (8.0, 6.7), (8.3, 7.0), (20.0, 7.0)];
        assert_eq!(
            places(&up.with_edge(8.0, edge, MetalSide::Outside, Tag(1)).unwrap()),
            wanted
        );
        let wanted = [(0.0, 5.0), (7.7, 5.0), (8.0, 5.3), (8.0, 7.0), (20.0, 7.0)];
        assert_eq!(
            places(&up.with_edge(8.0, edge, MetalSide::Bore, Tag(1)).unwrap()),
            wanted
        );
        let down = up.reversed(20.0);
        let wanted = [
            (0.0, 7.0),
            (11.7, 7.0),
            (12.0, 6.7),
            (12.0, 5.0),
            (20.0, 5.0),
        ];
        assert_eq!(
            places(
                &down
                    .with_edge(12.0, edge, MetalSide::Outside, Tag(1))
                    .unwrap()
            ),
            wanted
        );
    }

    /// The volume is that of a cylinder with one rounded (torus) edge, in closed form.
    #[test]
    fn a_round_on_an_end_is_a_quarter_torus() {
        let (radius, f, height): (f64, f64, f64) = (6.0, 1.0, 10.0);
        let rod = line(&[(0.0, radius), (height, radius)]);
        let rounded = rod
            .with_edge(
                height,
                Edge::Round(Length::mm(f)),
                MetalSide::Outside,
                Tag(1),
            )
            .unwrap();
        let b = radius - f;
        let torus = b * b * f + b * f * f * PI / 2.0 + 2.0 * f.powi(3) / 3.0;
        let wanted = PI * radius * radius * (height - f) + PI * torus;
        let found = Properties::within(&rounded).volume_mm3;
        assert!((found / wanted - 1.0).abs() < 1e-12, "{found} for {wanted}");
    }

    #[test]
    fn a_round_between_a_taper_and_a_curve_is_tangent_to_both() {
        let cubic =
            Cubic::with_slopes(Point::new(10.0, 6.0), Point::new(20.0, 3.0), -0.1, -0.6).unwrap();
        let outline = line(&[(0.0, 5.0), (10.0, 6.0)])
            .then(Tag(2), cubic)
            .unwrap();
        let rounded = outline
            .with_edge(
                10.0,
                Edge::Round(Length::mm(8.0)),
                MetalSide::Outside,
                Tag(1),
            )
            .unwrap();
        assert_eq!(rounded.segments()[1].tag, Tag(1));
        for kink in rounded.kinks() {
            assert!(kink.turn_deg.abs() < 1e-6, "{kink:?}");
        }
    }

    #[test]
    fn what_does_not_fit_or_has_no_corner_is_refused() {
        let rod = line(&[(0.0, 6.0), (5.0, 6.0), (40.0, 6.0)]);
        let broken = |z: f64, edge: Edge| rod.with_edge(z, edge, MetalSide::Outside, Tag(1));
        assert_eq!(
            broken(5.0, Edge::Round(Length::mm(1.0))),
            Err(EdgeFlaw::NoCorner)
        );
        assert_eq!(
            broken(7.0, Edge::Round(Length::mm(1.0))),
            Err(EdgeFlaw::NoCorner)
        );
        assert_eq!(
            broken(0.0, Edge::Round(Length::mm(0.0))),
            Err(EdgeFlaw::NoCorner)
        );
        assert_eq!(
            broken(0.0, Edge::Round(Length::mm(5.5))),
            Err(EdgeFlaw::TooLarge)
        );
        assert_eq!(
            broken(0.0, Edge::Chamfer(Length::mm(1e9))),
            Err(EdgeFlaw::TooLarge)
        );
        let cone = line(&[(0.0, 6.0), (40.0, 0.0)]);
        assert!(
            cone.with_edge(
                40.0,
                Edge::Round(Length::mm(1.0)),
                MetalSide::Outside,
                Tag(1)
            )
            .is_err()
        );
    }
}
