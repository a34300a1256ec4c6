//! Where round the axis two rings at one station part and meet.

use super::super::SAME_MM;
use super::super::ring::{Ring, RingSide};
use quillet_geometry::put_in_order;
use std::f64::consts::TAU;

/// Nearer than this to the axis and to each other two places in one direction are one, mm.
const SAME_PLACE_MM: f64 = 1e-6;
/// Two sides are one where they are no farther apart, mm.
const SAME_SIDE_MM: f64 = 1e-7;

/// A direction in which either ring has a corner, or in which they meet.
#[derive(Clone, Debug)]
pub(super) struct Break {
    pub(super) angle: f64,
    /// The corner of each ring there.
    pub(super) corners: [Option<usize>; 2],
    /// The side of each ring behind it.
    pub(super) sides: [Option<RingSide>; 2],
    /// Whether the rings are in one place there.
    pub(super) shared: bool,
    /// How much farther from the axis the first is up to the next one, as a sign.
    pub(super) ahead: i8,
}

/// The directions in which either of two rings has a corner, or in which they meet, with the clock. None where two
/// corners of one ring are not to be told apart.
pub(super) fn breaks(rings: [Option<&Ring>; 2]) -> Option<Vec<Break>> {
    Some(compared(meetings(cornered(rings)?, rings), rings))
}

/// Where either ring has a corner; none where two of one ring are not to be told apart.
fn cornered(rings: [Option<&Ring>; 2]) -> Option<Vec<Break>> {
    let mut all: Vec<(f64, f64, usize, usize)> = Vec::new();
    for (which, ring) in rings.iter().enumerate() {
        for (nth, corner) in ring.iter().flat_map(|it| &it.corners).enumerate() {
            let near = SAME_MM / 2.0 / corner.radius_mm();
            let angle = corner.angle();
            all.push((
                if TAU - angle < near { 0.0 } else { angle },
                near,
                which,
                nth,
            ));
        }
    }
    put_in_order(&mut all, |it| it.0);
    let mut breaks: Vec<Break> = Vec::new();
    for (angle, near, which, nth) in all {
        if let Some(last) = breaks.last_mut().filter(|it| angle - it.angle < near) {
            if last.corners[which].is_some() {
                return None;
            }
            last.corners[which] = Some(nth);
        } else {
            let mut corners = [None; 2];
            corners[which] = Some(nth);
            breaks.push(Break {
                angle,
                corners,
                sides: [None; 2],
                shared: false,
                ahead: 0,
            });
        }
    }
    sided(&mut breaks, rings);
    Some(breaks)
}

/// Finds the side of each ring behind each break.
fn sided(breaks: &mut [Break], rings: [Option<&Ring>; 2]) {
    for (which, ring) in rings.iter().enumerate() {
        let Some(ring) = ring else { continue };
        let last = breaks.iter().rev().find_map(|it| it.corners[which]);
        let mut here = last.map(|nth| ring.sides[nth]);
        for it in breaks.iter_mut() {
            here = it.corners[which].map(|nth| ring.sides[nth]).or(here);
            it.sides[which] = here;
        }
    }
}

/// The turn from each break to the next, rad.
fn turn(breaks: &[Break], at: usize) -> f64 {
    match breaks.get(at + 1) {
        Some(next) => next.angle - breaks[at].angle,
        None => breaks[0].angle + TAU - breaks[at].angle,
    }
}

/// The same, with each direction between in which the sides of both rings meet.
fn meetings(breaks: Vec<Break>, rings: [Option<&Ring>; 2]) -> Vec<Break> {
    let widest = rings.iter().flatten().map(|it| it.place.r);
    let little = SAME_MM / widest.fold(SAME_MM, f64::max);
    let mut all = Vec::with_capacity(breaks.len());
    for (at, it) in breaks.iter().enumerate() {
        all.push(it.clone());
        let [Some(one), Some(other)] = it.sides else {
            continue;
        };
        let room = turn(&breaks, at);
        let ahead = |angle: &f64| (angle - it.angle).rem_euclid(TAU);
        let mut met = meet(one, other);
        met.retain(|angle| (little..room - little).contains(&ahead(angle)));
        put_in_order(&mut met, ahead);
        met.dedup_by(|a, b| (ahead(a) - ahead(b)).abs() < little);
        all.extend(met.iter().map(|angle| Break {
            angle: it.angle + ahead(angle),
            corners: [None; 2],
            ..it.clone()
        }));
    }
    all
}

/// The directions in which two sides meet.
fn meet(one: RingSide, other: RingSide) -> Vec<f64> {
    match (one, other) {
        (RingSide::Round(_), RingSide::Round(_)) => Vec::new(),
        (RingSide::Round(radius), RingSide::Straight(apothem, clock))
        | (RingSide::Straight(apothem, clock), RingSide::Round(radius)) => {
            if (apothem - radius).abs() < SAME_PLACE_MM {
                return vec![clock];
            }
            if apothem > radius {
                return Vec::new();
            }
            let half = (apothem / radius).acos();
            vec![clock - half, clock + half]
        }
        (RingSide::Straight(near, first), RingSide::Straight(far, second)) => {
            // near cos(θ - second) = far cos(θ - first)
            let cos = near * second.cos() - far * first.cos();
            let sin = near * second.sin() - far * first.sin();
            if cos.hypot(sin) < 1e-12 {
                return Vec::new();
            }
            let angle = (-cos).atan2(sin);
            vec![angle, angle + TAU / 2.0]
        }
    }
}

/// The same, each with whether the rings are in one place there, and which is ahead up to the next.
fn compared(mut breaks: Vec<Break>, rings: [Option<&Ring>; 2]) -> Vec<Break> {
    let count = breaks.len();
    for at in 0..count {
        let half = breaks[at].angle + turn(&breaks, at) / 2.0;
        let it = &breaks[at];
        let [one, other] = it
            .sides
            .map(|side| side.map_or(0.0, |it| it.radius_mm(half)));
        let off = one - other;
        let ahead = if off.abs() < SAME_SIDE_MM {
            0
        } else if off > 0.0 {
            1
        } else {
            -1
        };
        let [one, other] = [0, 1].map(|which| radius_mm(it, which, rings));
        let shared = (one - other).abs() < SAME_PLACE_MM;
        let it = &mut breaks[at];
        (it.ahead, it.shared) = (ahead, shared);
    }
    // What is one is so from end to end.
    for at in (0..count)
        .filter(|at| rings.iter().all(Option::is_some) && breaks[*at].ahead == 0)
        .collect::<Vec<_>>()
    {
        breaks[at].shared = true;
        breaks[(at + 1) % count].shared = true;
    }
    breaks
}

/// From the axis to a ring at a break, mm.
pub(super) fn radius_mm(it: &Break, which: usize, rings: [Option<&Ring>; 2]) -> f64 {
    let corner = it.corners[which].zip(rings[which]);
    match corner {
        Some((nth, ring)) => ring.corners[nth].radius_mm(),
        None => it.sides[which].map_or(0.0, |side| side.radius_mm(it.angle)),
    }
}
