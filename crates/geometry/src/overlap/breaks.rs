//! The directions in which the outline of something in a plane has a corner, or meets another's.

use std::f64::consts::PI;

use super::Plane;
use super::items::Item;

/// x cos + y sin = at, mm; or a circle about a middle.
#[derive(Debug, Clone, Copy)]
enum Edge {
    Straight { cos: f64, sin: f64, at: f64 },
    Round { x: f64, y: f64, r: f64 },
}

/// All of them, radians, from 0 to a full turn.
pub(super) fn angles(plane: &Plane) -> Vec<f64> {
    let mut edges = vec![round(plane.outside_mm), round(plane.bore_mm)];
    let mut found: Vec<f64> = vec![0.0, PI / 2.0, PI, 1.5 * PI];
    for item in &plane.items {
        edges_of(item, &mut edges);
        if let Item::Strip { angle, .. } = item {
            found.extend([-PI / 2.0, PI / 2.0].map(|turn| angle + turn));
        }
    }
    let corners = plane.section.iter().flat_map(|it| it.corners_deg());
    let corners: Vec<f64> = corners.map(f64::to_radians).collect();
    for (nth, clock) in corners.iter().enumerate() {
        // The flat between two corners, as a line.
        let next = corners[(nth + 1) % corners.len()];
        edges.extend(flat(plane, *clock, next));
    }
    found.extend(corners);
    for (nth, one) in edges.iter().enumerate() {
        found.extend(tangents(one).into_iter().flatten());
        for other in &edges[..nth] {
            let met = meetings(*one, *other).into_iter().flatten();
            found.extend(met.map(|[x, y]| y.atan2(x)));
        }
    }
    for angle in &mut found {
        *angle = angle.rem_euclid(2.0 * PI);
    }
    found.retain(|it| it.is_finite());
    found.push(2.0 * PI);
    found.sort_by(f64::total_cmp);
    found
}

fn round(r: f64) -> Edge {
    Edge::Round { x: 0.0, y: 0.0, r }
}

fn edges_of(item: &Item, edges: &mut Vec<Edge>) {
    match *item {
        Item::Flats { .. } => {}
        Item::Ring { from_mm, .. } => edges.push(round(from_mm)),
        Item::Strip {
            half_mm,
            angle,
            floor_mm,
        } => {
            let (sin, cos) = angle.sin_cos();
            let line = |cos, sin, at| Edge::Straight { cos, sin, at };
            edges.extend([
                line(cos, sin, floor_mm),
                line(-sin, cos, half_mm),
                line(sin, -cos, half_mm),
            ]);
        }
        Item::Disc {
            on_mm,
            angle,
            radius_mm,
            ..
        } => edges.push(Edge::Round {
            x: on_mm * angle.cos(),
            y: on_mm * angle.sin(),
            r: radius_mm,
        }),
    }
}

/// The straight line of the outline between two of its corners, where it is one.
fn flat(plane: &Plane, from: f64, to: f64) -> Option<Edge> {
    let turn = (to - from).rem_euclid(2.0 * PI);
    let section = plane.section.as_ref()?;
    let at = |angle: f64| {
        let r = section.radius_at_mm(angle.to_degrees());
        [r * angle.cos(), r * angle.sin()]
    };
    let ([x1, y1], [x2, y2]) = (at(from + turn * 1e-3), at(to - turn * 1e-3));
    let long = (x2 - x1).hypot(y2 - y1);
    let (cos, sin) = ((y2 - y1) / long, (x1 - x2) / long);
    Some(Edge::Straight {
        cos,
        sin,
        at: x1 * cos + y1 * sin,
    })
}

/// The rays from the axis that touch a circle beside it.
fn tangents(edge: &Edge) -> [Option<f64>; 2] {
    let Edge::Round { x, y, r } = *edge else {
        return [None; 2];
    };
    let off = x.hypot(y);
    let half = (off > r).then(|| (r / off).asin());
    [-1.0, 1.0].map(|side| half.map(|half| y.atan2(x) + side * half))
}

/// Where two edges meet.
fn meetings(one: Edge, other: Edge) -> [Option<[f64; 2]>; 2] {
    match (one, other) {
        (
            Edge::Straight {
                cos: a,
                sin: b,
                at: p,
            },
            Edge::Straight {
                cos: c,
                sin: d,
                at: q,
            },
        ) => {
            let turn = a * d - b * c;
            let met = turn.abs() > 1e-12;
            [
                met.then(|| [(p * d - b * q) / turn, (a * q - p * c) / turn]),
                None,
            ]
        }
        (Edge::Straight { cos, sin, at }, Edge::Round { x, y, r })
        | (Edge::Round { x, y, r }, Edge::Straight { cos, sin, at }) => {
            let off = at - x * cos - y * sin;
            let along = ((r - off) * (r + off)).max(-1.0);
            let half = (along >= 0.0).then(|| along.sqrt());
            [-1.0, 1.0].map(|side| {
                let half = half? * side;
                Some([x + off * cos - half * sin, y + off * sin + half * cos])
            })
        }
        (
            Edge::Round {
                x: x1,
                y: y1,
                r: r1,
            },
            Edge::Round {
                x: x2,
                y: y2,
                r: r2,
            },
        ) => {
            let apart = (x2 - x1).hypot(y2 - y1);
            if apart < 1e-12 {
                return [None; 2];
            }
            let (cos, sin) = ((x2 - x1) / apart, (y2 - y1) / apart);
            let at = (apart * apart + r1 * r1 - r2 * r2) / (2.0 * apart) + x1 * cos + y1 * sin;
            meetings(Edge::Straight { cos, sin, at }, one)
        }
    }
}
