//! Two rings at one station, joined: what they share, and the faces between them.

use super::ring::{Ring, RingSide};
use super::{Face, FaceSurface, RimCurve, SAME_MM, Shell};
use quillet_geometry::Point;
use std::f64::consts::TAU;

/// Nearer than this to the axis and to each other two places in one direction are one, mm.
const SAME_PLACE_MM: f64 = 1e-6;
/// Two sides are one where they are no farther apart, mm.
const SAME_SIDE_MM: f64 = 1e-7;

/// What a ring is in the shell: its corners, and the edges that each of its sides is made of, with the clock.
#[derive(Clone, Debug)]
pub(super) struct Joined {
    pub(super) corners: Vec<usize>,
    pub(super) sides: Vec<Vec<usize>>,
}

impl Joined {
    /// A ring on the axis.
    pub(super) fn pole(corner: usize, ring: &Ring) -> Joined {
        Joined {
            corners: vec![corner; ring.corners.len()],
            sides: Vec::new(),
        }
    }
}

/// A direction in which either ring has a corner, or in which they meet.
#[derive(Clone, Debug)]
struct Break {
    angle: f64,
    /// The corner of each ring there.
    corners: [Option<usize>; 2],
    /// The side of each ring behind it.
    sides: [Option<RingSide>; 2],
    /// Whether the rings are in one place there.
    shared: bool,
    /// How much farther from the axis the first is up to the next one, as a sign.
    ahead: i8,
}

/// The ring before a station and the one behind it, put into the shell, and the faces between them. None where
/// they cross and they are not both outside.
pub(super) fn join(
    shell: &mut Shell,
    before: Option<&Ring>,
    behind: Option<&Ring>,
    closing: bool,
) -> Option<(Joined, Joined)> {
    let rings = [before, behind];
    let breaks = compared(meetings(breaks(rings)?, rings), rings);
    let crossing = |ahead: i8| breaks.iter().any(|it| it.ahead == ahead);
    if closing && crossing(1) && crossing(-1) {
        return None;
    }
    let place = before.or(behind)?.place;
    let corners = corners(shell, &breaks, rings, place.z);
    let edges = edges(shell, &breaks, &corners, place.z);
    faces(shell, &breaks, &edges, place.z);
    let [one, other] = [0, 1].map(|which| {
        let ring = rings[which]?;
        Some(joined(ring, which, &breaks, &corners, &edges))
    });
    let none = Joined {
        corners: Vec::new(),
        sides: Vec::new(),
    };
    Some((one.unwrap_or_else(|| none.clone()), other.unwrap_or(none)))
}

/// Where either ring has a corner; none where two of one ring are not to be told apart.
fn breaks(rings: [Option<&Ring>; 2]) -> Option<Vec<Break>> {
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
    all.sort_by(|one, other| one.0.total_cmp(&other.0));
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
        met.sort_by(|a, b| ahead(a).total_cmp(&ahead(b)));
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
fn radius_mm(it: &Break, which: usize, rings: [Option<&Ring>; 2]) -> f64 {
    let corner = it.corners[which].zip(rings[which]);
    match corner {
        Some((nth, ring)) => ring.corners[nth].radius_mm(),
        None => it.sides[which].map_or(0.0, |side| side.radius_mm(it.angle)),
    }
}

/// The corner of the shell that each ring has at each break.
fn corners(
    shell: &mut Shell,
    breaks: &[Break],
    rings: [Option<&Ring>; 2],
    z: f64,
) -> Vec<[Option<usize>; 2]> {
    let each = breaks.iter().map(|it| {
        let own = [0, 1].map(|which| {
            let nth = it.corners[which]?;
            Some(rings[which]?.corners[nth].at_mm)
        });
        let put = |shell: &mut Shell, [x, y]: [f64; 2]| shell.corner([x, y, z]);
        if !it.shared {
            return own.map(|at| at.map(|at| put(shell, at)));
        }
        let met = || {
            let (sin, cos) = it.angle.sin_cos();
            let radius = radius_mm(it, 0, rings);
            [radius * cos, radius * sin]
        };
        let at = own[0].or(own[1]).unwrap_or_else(met);
        [Some(put(shell, at)); 2]
    });
    each.collect()
}

/// The edge of the shell that begins at each break on each ring.
fn edges(
    shell: &mut Shell,
    breaks: &[Break],
    corners: &[[Option<usize>; 2]],
    z: f64,
) -> Vec<[Option<usize>; 2]> {
    let count = breaks.len();
    let mut edges = vec![[None; 2]; count];
    for which in [0, 1] {
        for at in 0..count {
            let (Some(from), Some(side)) = (corners[at][which], breaks[at].sides[which]) else {
                continue;
            };
            let next = (at + 1..=at + count).find_map(|it| corners[it % count][which]);
            let one = breaks[at].ahead == 0 && breaks[at].shared;
            if let (true, 1, Some(known)) = (one, which, edges[at][0]) {
                edges[at][1] = Some(known);
                continue;
            }
            let curve = match side {
                RingSide::Round(radius) => RimCurve::Round(Point::new(z, radius)),
                RingSide::Straight(..) => RimCurve::Line,
            };
            edges[at][which] = next.map(|to| shell.edge([from, to], curve));
        }
    }
    edges
}

/// The faces between the rings.
fn faces(shell: &mut Shell, breaks: &[Break], edges: &[[Option<usize>; 2]], z: f64) {
    let count = breaks.len();
    let face = |ahead: i8, bounds: Vec<Vec<(usize, bool)>>| Face {
        surface: FaceSurface::Square(z, ahead > 0),
        bounds: bounds.into_iter().filter(|it| !it.is_empty()).collect(),
    };
    let bound = |which: usize, places: &mut dyn Iterator<Item = usize>| {
        let here = places.filter_map(|at| edges[at % count][which]);
        here.map(|edge| (edge, which == 0)).collect::<Vec<_>>()
    };
    let ahead_of = |at: usize| breaks[at].ahead;
    let Some(first) = breaks.iter().position(|it| it.shared) else {
        let mut bounds = vec![bound(0, &mut (0..count)), bound(1, &mut (0..count).rev())];
        if ahead_of(0) < 0 {
            bounds.reverse();
        }
        shell.faces.push(face(ahead_of(0), bounds));
        return;
    };
    let mut at = first;
    while at < first + count {
        let next = (at + 1..=first + count).find(|it| breaks[it % count].shared);
        let next = next.unwrap_or(first + count);
        if ahead_of(at % count) != 0 {
            let mut round = bound(0, &mut (at..next));
            round.extend(bound(1, &mut (at..next).rev()));
            shell.faces.push(face(ahead_of(at % count), vec![round]));
        }
        at = next;
    }
}

fn joined(
    ring: &Ring,
    which: usize,
    breaks: &[Break],
    corners: &[[Option<usize>; 2]],
    edges: &[[Option<usize>; 2]],
) -> Joined {
    let count = breaks.len();
    let at = |nth: usize| breaks.iter().position(|it| it.corners[which] == Some(nth));
    let places: Vec<usize> = (0..ring.corners.len()).filter_map(at).collect();
    let side = |from: &usize| {
        let until = (from + 1..from + count).find(|it| breaks[it % count].corners[which].is_some());
        let places = *from..until.unwrap_or(from + count);
        places.filter_map(|it| edges[it % count][which]).collect()
    };
    Joined {
        corners: places.iter().filter_map(|at| corners[*at][which]).collect(),
        sides: places.iter().map(side).collect(),
    }
}
