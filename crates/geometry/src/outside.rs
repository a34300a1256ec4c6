//! An outside from the stations at which it is measured.

use crate::chain::SAME;
use crate::smooth::slopes;
use crate::{Arc, Chain, Cubic, Curve, Edge, EdgeFlaw, Length, MetalSide, Point, Segment, Tag};

/// One station of an outside: a place, the diameter there and how the surface comes to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Station {
    /// From the zero end.
    pub at: Length,
    /// The diameter at which the surface arrives.
    pub arrives: Length,
    /// The diameter at which it leaves: another one at a step.
    pub leaves: Length,
    /// How the surface comes here from the station before.
    pub shape: Shape,
    /// How the corner here is broken.
    pub edge: Option<Edge>,
    /// For the surface that comes here, and for the face of a step.
    pub tag: Tag,
    /// For the broken corner.
    pub edge_tag: Tag,
}

/// How a surface comes to a station from the one before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Shape {
    /// A cylinder or cone.
    #[default]
    Straight,
    /// A monotone cubic (Fritsch & Carlson, 1980) together with the smooth ones beside it.
    ///
    /// It takes the slope of another shape beside it where that has one, and is free at a step
    /// and at the ends.
    Smooth,
    /// A quarter ellipse, along the axis at the larger diameter and square to it at the smaller.
    Dome,
    /// An arc of a circle of this radius that bulges out.
    Bead(Length),
    /// An arc of a circle of this radius that is hollow.
    Cove(Length),
}

/// An outside and what could not be made as it was asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Outside {
    /// From the first station to the last; none with fewer than two.
    pub chain: Option<Chain>,
    /// In order of stations.
    pub flaws: Vec<StationFlaw>,
}

/// What could not be made at a station.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct StationFlaw {
    /// Which of the stations given.
    pub station: usize,
    /// What is wrong.
    pub flaw: Flaw,
}

/// What could not be made, and what was put in its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Flaw {
    /// The station is not past the one before; it was left out.
    OutOfOrder,
    /// No arc of this radius reaches from station to station without overhanging; `least` would.
    /// A straight line was drawn.
    ArcTooTight {
        /// The least radius that can be made.
        least: Length,
    },
    /// The corner cannot be broken; it was left sharp.
    Edge(EdgeFlaw),
}

/// The outside through these stations, which run along the part.
pub fn outside(stations: &[Station]) -> Outside {
    let mut flaws = Vec::new();
    let mut kept: Vec<(usize, &Station)> = Vec::with_capacity(stations.len());
    for (index, station) in stations.iter().enumerate() {
        match kept.last() {
            Some((_, before)) if station.at <= before.at => {
                flaws.push(StationFlaw {
                    station: index,
                    flaw: Flaw::OutOfOrder,
                });
            }
            _ => kept.push((index, station)),
        }
    }

    let mut curves: Vec<Option<Curve>> = kept
        .windows(2)
        .map(|pair| {
            let (start, end) = (leaving(pair[0].1), arriving(pair[1].1));
            plain(pair[1].1.shape, start, end).unwrap_or_else(|least| {
                flaws.push(StationFlaw {
                    station: pair[1].0,
                    flaw: Flaw::ArcTooTight { least },
                });
                Some(Curve::line(start, end))
            })
        })
        .collect();
    smooth(&kept, &mut curves);

    let pieces = pieces(&kept, &curves, &mut flaws);
    flaws.sort_by_key(|flaw| flaw.station);
    Outside {
        chain: Chain::new(pieces),
        flaws,
    }
}

fn arriving(station: &Station) -> Point {
    Point::turned(station.at, station.arrives)
}

fn leaving(station: &Station) -> Point {
    Point::turned(station.at, station.leaves)
}

/// The curve of a shape that needs only its two stations; none for a smooth one. The error is the
/// least radius of an arc.
fn plain(shape: Shape, start: Point, end: Point) -> Result<Option<Curve>, Length> {
    let arc = |radius: Length, convex: bool| {
        Arc::circular(start, end, radius.to_mm(), convex)
            .map(Curve::Arc)
            .ok_or_else(|| least_radius(start, end))
    };
    Ok(Some(match shape {
        Shape::Smooth => return Ok(None),
        Shape::Straight => Curve::line(start, end),
        Shape::Dome => Arc::dome(start, end).map_or(Curve::line(start, end), Curve::Arc),
        Shape::Bead(radius) => arc(radius, true)?,
        Shape::Cove(radius) => arc(radius, false)?,
    }))
}

/// The arc that stands square to the axis at one end: chord² / (2 × length along the axis).
fn least_radius(start: Point, end: Point) -> Length {
    let chord = start.distance(end);
    // Up to the next micrometre, so that what is said can be made.
    Length::mm((chord * chord / (2.0 * (end.z - start.z)) * 1000.0 - 1e-6).ceil() / 1000.0)
}

/// Draws the smooth runs, each up to the next step or other shape.
fn smooth(kept: &[(usize, &Station)], curves: &mut [Option<Curve>]) {
    let steps = |at: usize| kept[at].1.arrives != kept[at].1.leaves;
    let mut from = 0;
    while from < curves.len() {
        if curves[from].is_some() {
            from += 1;
            continue;
        }
        let mut to = from + 1;
        while to < curves.len() && curves[to].is_none() && !steps(to) {
            to += 1;
        }
        // Spans from..to lie between stations from..=to.
        let beside = |span: Option<usize>, station: usize, t: f64| {
            let curve = curves.get(span?)?.filter(|_| !steps(station))?;
            Some(curve.slope(t)).filter(|slope| slope.is_finite())
        };
        let (first, last) = (
            beside(from.checked_sub(1), from, 1.0),
            beside(Some(to), to, 0.0),
        );
        let mut places = vec![leaving(kept[from].1)];
        places.extend((from + 1..=to).map(|at| arriving(kept[at].1)));
        let slopes = slopes(&places, first, last);
        for span in from..to {
            let (start, end) = (places[span - from], places[span - from + 1]);
            let cubic =
                Cubic::with_slopes(start, end, slopes[span - from], slopes[span - from + 1]);
            curves[span] = Some(cubic.map_or(Curve::line(start, end), Curve::Cubic));
        }
        from = to;
    }
}

/// The curves with the faces of the steps between them, and the corners broken that are to be.
fn pieces(
    kept: &[(usize, &Station)],
    curves: &[Option<Curve>],
    flaws: &mut Vec<StationFlaw>,
) -> Vec<Segment> {
    let mut pieces: Vec<Segment> = Vec::with_capacity(2 * curves.len());
    let span = |at: usize| {
        let curve = (*curves.get(at)?)?;
        Some(Segment {
            curve,
            tag: kept[at + 1].1.tag,
        })
    };
    for (at, (index, station)) in kept.iter().enumerate() {
        // Only what lies beside the corner is cut: the surface that arrives, the face, the next.
        let first = pieces.len().saturating_sub(1);
        let (arrives, leaves) = (arriving(station), leaving(station));
        if (arrives.r - leaves.r).abs() > SAME && kept.len() > 1 {
            pieces.push(Segment {
                curve: Curve::line(arrives, leaves),
                tag: station.tag,
            });
        }
        pieces.extend(span(at));
        let Some(edge) = station.edge else { continue };
        let Some(beside) = Chain::new(pieces[first..].iter().copied()) else {
            continue;
        };
        match beside.with_edge(
            station.at.to_mm(),
            edge,
            MetalSide::Outside,
            station.edge_tag,
        ) {
            Ok(broken) => {
                pieces.truncate(first);
                pieces.extend_from_slice(broken.segments());
            }
            Err(flaw) => flaws.push(StationFlaw {
                station: *index,
                flaw: Flaw::Edge(flaw),
            }),
        }
    }
    pieces
}

#[cfg(test)]
mod tests;
