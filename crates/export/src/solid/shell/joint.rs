//! Two rings at one station, joined: what they share, and the faces between them.

mod breaks;

use super::ring::{Ring, RingSide};
use super::{Face, FaceSurface, RimCurve, Shell};
use breaks::{Break, breaks, radius_mm};
use quillet_geometry::Point;

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

/// The ring before a station and the one behind it, put into the shell, and the faces between them. None where
/// they cross and they are not both outside.
pub(super) fn join(
    shell: &mut Shell,
    before: Option<&Ring>,
    behind: Option<&Ring>,
    closing: bool,
) -> Option<(Joined, Joined)> {
    let rings = [before, behind];
    let breaks = breaks(rings)?;
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
