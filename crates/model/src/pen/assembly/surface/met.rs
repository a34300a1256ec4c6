//! How a plane moves that nothing is written for: where two surfaces meet, or a broken corner ends.

use super::{SAME_MM, Surface};
use crate::pen::assembly::chain::Drift;
use crate::{Cut, Origin};
use quillet_geometry::{Edge, Length, Point, Segment};

impl Surface<'_> {
    /// How the plane moves where two surfaces only meet, as a drill's point runs out into a narrower
    /// hole: to where their radii are one again. A broken corner ends as far from the corner as it is
    /// large, and moves with it.
    pub(super) fn met(self, inside: bool, station_mm: f64) -> Drift {
        let Some(profiles) = &self.part.profiles else {
            return Drift::default();
        };
        let solids = [&profiles.crest, &profiles.root].into_iter();
        let chains = solids.flat_map(|solid| match inside {
            true => solid.inner.as_slice(),
            false => std::slice::from_ref(&solid.outer),
        });
        let here = |at: Point| (at.z - station_mm).abs() < SAME_MM;
        let sloping = |it: &Segment| !it.curve.is_vertical();
        let mut pairs = chains.flat_map(|chain| chain.near(station_mm, SAME_MM).windows(2));
        let found = pairs.find_map(|pair| {
            let [one, other] = pair else { return None };
            if !here(one.curve.end()) || !sloping(one) || !sloping(other) {
                return None;
            }
            if let Some(corner) = self.broken_at(one, other) {
                return Some(corner.moves(self, inside));
            }
            let (slope, next) = (one.curve.slope(1.0), other.curve.slope(0.0));
            let bends = (slope - next).abs() > SAME_MM;
            bends.then(|| {
                let across =
                    |it: &Segment, slope| self.across(profiles.origin(it.tag), station_mm, slope);
                let apart = across(other, next).plus(-1.0, &across(one, slope));
                apart.times(1.0 / (slope - next))
            })
        });
        found.unwrap_or_default()
    }

    /// The corner that one of two neighbours breaks, where it ends at the other as it was drawn, and
    /// not where something else cuts it off.
    fn broken_at(self, one: &Segment, other: &Segment) -> Option<BrokenCorner> {
        let end = one.curve.end();
        let (slope, next) = (one.curve.slope(1.0), other.curve.slope(0.0));
        let own = |edge: &Segment, foot: Point, side: &Segment, slopes: (f64, f64)| {
            let (corner, broken) = self.corner_of(edge, foot)?;
            let reaches = match broken {
                Edge::Round(_) => (slopes.0 - slopes.1).abs() < TANGENT,
                Edge::Chamfer(leg) => (corner.distance(end) - leg.to_mm()).abs() < NEAR_MM,
            };
            reaches.then(|| BrokenCorner {
                at: Length::mm(corner.z),
                broken,
                side: self.part.profiles.as_ref().map(|it| it.origin(side.tag)),
                end_mm: end.z,
                slope: slopes.1,
            })
        };
        own(one, one.curve.start(), other, (slope, next))
            .or_else(|| own(other, other.curve.end(), one, (next, slope)))
    }

    /// The corner that a piece breaks, and how; `foot` is its other end.
    fn corner_of(self, edge: &Segment, foot: Point) -> Option<(Point, Edge)> {
        let profiles = self.part.profiles.as_ref()?;
        match profiles.origin(edge.tag) {
            Origin::FeatureEdge(index) => {
                let cut = self.part.features.get(index)?;
                let Cut::Edge(broken) = cut.cut else {
                    return None;
                };
                let (Edge::Round(size) | Edge::Chamfer(size)) = broken;
                let face = self.part.station(cut.end, Length::ZERO);
                Some((Point::new(face.to_mm(), foot.r + size.to_mm()), broken))
            }
            Origin::StationEdge(index) => {
                let station = self.part.stations.get(index)?;
                let dia = station.step.map_or(station.dia, |it| it.max(station.dia));
                Some((Point::turned(station.at, dia), station.edge?))
            }
            _ => None,
        }
    }
}

/// A corner that is broken, and where it ends on the side that slopes.
struct BrokenCorner {
    at: Length,
    broken: Edge,
    side: Option<Origin>,
    end_mm: f64,
    /// How the side's radius grows there, mm a mm.
    slope: f64,
}

impl BrokenCorner {
    /// How the plane in which it ends moves: with the corner, and as the side turns round it. A leg is
    /// as long along the side, a round as far from its centre, whichever way that runs.
    fn moves(&self, surface: Surface, inside: bool) -> Drift {
        let turned = self.side.map(|side| {
            let at = |z: f64| surface.across(side, z, self.slope);
            let grows = at(self.end_mm + STEP_MM).plus(-1.0, &at(self.end_mm - STEP_MM));
            grows.times(0.5 / STEP_MM)
        });
        let bent = (1.0 + self.slope * self.slope).powf(-1.5);
        let by = match self.broken {
            Edge::Round(size) => -size.to_mm() * bent,
            Edge::Chamfer(leg) => {
                let beyond = (self.end_mm - self.at.to_mm()).signum();
                -beyond * leg.to_mm() * self.slope * bent
            }
        };
        let plane = surface.plane(inside, self.at);
        plane.plus(by, &turned.unwrap_or_default())
    }
}

/// So far either way a side's slope is looked at, mm.
const STEP_MM: f64 = 1e-3;
/// A round runs out into its neighbour with its slope, but for what rounding leaves of it.
const TANGENT: f64 = 1e-4;
/// Places and stations are kept to the nanometre.
const NEAR_MM: f64 = 1e-5;
