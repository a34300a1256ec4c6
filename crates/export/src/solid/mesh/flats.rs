//! Solids with flats on their outside: rings of a mesh whose corners lie where the flats meet the outside
//! and each other, so that every edge of the solid is an edge of the mesh.

use super::super::outline::{EdgeLoop, on_axis};
use super::super::stretches::{Stretch, section, stretches};
use quillet_geometry::section::{Flats, Section};
use quillet_geometry::{Curve, Point};
use std::f64::consts::TAU;

/// Directions nearer than this are one, rad: in the widest pen some 10 nm.
const SAME_RAD: f64 = 1e-6;
/// A stretch is halved so often at most.
const MOST_HALVINGS: u32 = 14;

/// A direction round the axis, in steps of [`SAME_RAD`].
pub(super) type Direction = u32;

/// The outline of the solid in a plane square to its axis.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    /// A place of the turned outline.
    pub(super) place: Point,
    /// What flats leave of the disc there; none where it is round.
    section: Option<Section>,
    /// Where it has corners, in order.
    pub(super) corners: Vec<Direction>,
}

/// How fine a mesh is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fineness {
    /// How far a face may stray along the outline, and an edge from its chord, mm.
    pub(super) share_mm: f64,
    /// Between corners of a round, rad.
    pub(super) step: f64,
}

impl Ring {
    pub(super) fn round(place: Point) -> Ring {
        Ring {
            place,
            section: None,
            corners: Vec::new(),
        }
    }

    /// Of a place of the outside where some sets of flats are in force.
    fn cut(place: Point, sets: &[Flats]) -> Ring {
        let section = section(place, sets);
        let corners = section.iter().flat_map(Section::corners_deg);
        let mut corners: Vec<Direction> = corners.map(|it| direction(it.to_radians())).collect();
        corners.sort_unstable();
        corners.dedup();
        Ring {
            place,
            section,
            corners,
        }
    }

    pub(super) fn is_pole(&self) -> bool {
        on_axis(self.place)
    }

    /// From the axis to the outline in a direction, mm.
    pub(super) fn radius_mm(&self, way: Direction) -> f64 {
        match &self.section {
            Some(section) => section.radius_at_mm(angle(way).to_degrees()),
            None => self.place.r,
        }
    }

    /// The place of the outline in a direction, mm.
    pub(super) fn at_mm(&self, way: Direction) -> [f64; 3] {
        let (sin, cos) = angle(way).sin_cos();
        let radius = self.radius_mm(way);
        [radius * cos, radius * sin, self.place.z]
    }
}

/// The direction of an angle.
pub(super) fn direction(angle: f64) -> Direction {
    let steps = (TAU / SAME_RAD) as Direction;
    let nearest = (angle.rem_euclid(TAU) / SAME_RAD).round() as Direction;
    if nearest >= steps { 0 } else { nearest }
}

/// The angle of a direction, rad.
pub(super) fn angle(way: Direction) -> f64 {
    f64::from(way) * SAME_RAD
}

/// From one direction to another the short way, rad.
fn apart(one: Direction, other: Direction) -> f64 {
    let turn = (angle(one) - angle(other)).abs();
    turn.min(TAU - turn)
}

/// The corners of two rings that are on one edge of the solid; none where they have not as many.
pub(super) fn matched(one: &Ring, other: &Ring) -> Vec<(Direction, Direction)> {
    let count = one.corners.len();
    if count == 0 || other.corners.len() != count {
        return Vec::new();
    }
    // In a full turn an edge may come by where the turn begins.
    let shifted = |by: usize| {
        let others = other.corners.iter().cycle().skip(by);
        one.corners.iter().copied().zip(others.copied())
    };
    let far = |by: &usize| shifted(*by).map(|(a, b)| apart(a, b)).sum::<f64>();
    let nearest = (0..count).min_by(|a, b| far(a).total_cmp(&far(b)));
    shifted(nearest.unwrap_or(0)).collect()
}

/// The rings of a run, flats on what is outside.
pub(super) fn rings(run: &EdgeLoop, sets: &[Flats], fine: Fineness) -> Vec<Ring> {
    let mut rings: Vec<Ring> = Vec::new();
    for edge in &run.edges {
        if !edge.outside {
            // Where the outside ends it has its ring already.
            let known = rings.last().is_some_and(|it| it.place == edge.from());
            let places = super::places(edge, fine.share_mm);
            rings.extend(places.skip(usize::from(known)).map(Ring::round));
        } else if !edge.is_face() {
            // A step of the outside lies between the rings of its neighbours.
            for Stretch { curve, flats } in stretches(&edge.curve, sets) {
                let first = Ring::cut(curve.start(), &flats);
                let before = rings.last();
                if !before.is_some_and(|it| it.place == first.place && it.corners == first.corners)
                {
                    rings.push(first.clone());
                }
                along(&curve, &flats, fine, first, &mut rings);
            }
        }
    }
    if !run.is_loop() {
        rings.extend(run.edges.last().map(|edge| Ring::round(edge.to())));
        rings.dedup_by(|next, last| next.place == last.place && next.is_pole());
    }
    rings
}

/// The rings along a piece after its first, as many as it takes.
fn along(piece: &Curve, sets: &[Flats], fine: Fineness, first: Ring, rings: &mut Vec<Ring>) {
    let ring = |t: f64| Ring::cut(piece.point(t), sets);
    let parts: u32 = if matches!(piece, Curve::Line(_)) {
        1
    } else {
        4
    };
    let mut last = first;
    for part in 1..=parts {
        let [from, to] = [part - 1, part].map(|it| f64::from(it) / f64::from(parts));
        let next = ring(to);
        // What lies ahead, the nearest last: each is taken as it is, or its middle put before it.
        let mut ahead = vec![(to, next, 0)];
        let mut at = from;
        while let Some((to, next, halvings)) = ahead.pop() {
            let middle = ring((at + to) / 2.0);
            if halvings < MOST_HALVINGS && fine.strays(&last, &middle, &next) {
                let half = (at + to) / 2.0;
                ahead.push((to, next, halvings + 1));
                ahead.push((half, middle, halvings + 1));
            } else {
                rings.push(next.clone());
                (at, last) = (to, next);
            }
        }
    }
}

impl Fineness {
    /// Whether what lies between two rings strays from straight, as their middle shows.
    fn strays(&self, from: &Ring, middle: &Ring, to: &Ring) -> bool {
        let way = to.place - from.place;
        let off = middle.place - from.place;
        let length = way.z.hypot(way.r).max(f64::MIN_POSITIVE);
        if (off.z * way.r - off.r * way.z).abs() / length > self.share_mm {
            return true;
        }
        let edges = matched(from, to);
        let as_many = from.corners.len() == to.corners.len();
        if !as_many || middle.corners.len() != edges.len() {
            // Where an edge begins or ends: as near to that as a face may stray.
            return to.place.z - from.place.z > self.share_mm;
        }
        let halves = matched(from, middle);
        edges
            .iter()
            .zip(&halves)
            .any(|(&(one, other), &(_, half))| {
                let [a, b, m] = [from.at_mm(one), to.at_mm(other), middle.at_mm(half)];
                let off = [0, 1, 2].map(|it| m[it] - (a[it] + b[it]) / 2.0);
                let off = off.iter().map(|it| it * it).sum::<f64>().sqrt();
                off > self.share_mm || apart(one, other) > self.step
            })
    }
}
