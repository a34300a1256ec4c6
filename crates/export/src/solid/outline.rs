//! The outline of a solid of revolution as runs of directed edges in the meridian plane.

use quillet_geometry::section::Flats;
use quillet_geometry::{Chain, Curve, Point, put_in_order};
use quillet_standards::Colour;

/// A named solid of revolution, ready to be written.
#[derive(Clone, Debug)]
pub struct Body {
    /// Its name.
    pub name: String,
    /// What it looks like, where that is known.
    pub colour: Option<Colour>,
    /// What is cut of it and is not in its surfaces.
    pub left_out: Vec<&'static str>,
    /// Flats on its outside.
    pub flats: Vec<Flats>,
    /// Its boundary: the first run bounds it from outside, further ones enclose voids.
    pub(super) runs: Vec<EdgeLoop>,
}

/// The bore reaches the outside, so that what is left is no solid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BrokenThrough {
    /// Where, mm along the axis.
    pub z_mm: f64,
}

/// Connected edges with the solid on their right, from axis to axis or round a closed loop.
#[derive(Clone, Debug, Default)]
pub(super) struct EdgeLoop {
    pub(super) edges: Vec<Edge>,
}

/// A piece of the outline with its direction of travel.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub(super) curve: Curve,
    /// Travelled against the curve's own direction.
    pub(super) backwards: bool,
    /// Of what is outside, not of a face or a bore.
    pub(super) outside: bool,
    /// Straight from a place to another, where a face runs towards the axis or is put in.
    from: Point,
    to: Point,
}

/// Shorter than this is no edge, mm.
const NOTHING: f64 = 1e-9;

impl Body {
    /// The solid between an outside and the bores in it, each of which is open at an end or closed to the
    /// axis.
    ///
    /// # Errors
    /// When a bore reaches the outside.
    pub fn new(
        name: impl Into<String>,
        outer: &Chain,
        inner: &[Chain],
    ) -> Result<Body, BrokenThrough> {
        whole(outer, inner)?;
        let mut trace = Trace {
            runs: vec![],
            open: EdgeLoop::default(),
        };
        let (start, end) = (outer.start(), outer.end());
        let at_start = inner.iter().find(|bore| bore.start().z - start.z < NOTHING);
        let opening = at_start.map_or(0.0, |bore| bore.start().r);
        trace.line(Point::new(start.z, opening), start);
        for segment in outer.segments() {
            trace.outside(segment.curve);
        }
        let at_end = inner.iter().find(|bore| end.z - bore.end().z < NOTHING);
        trace.line(
            end,
            Point::new(end.z, at_end.map_or(0.0, |bore| bore.end().r)),
        );
        // Back through the bores, from the far end.
        let mut bores: Vec<&Chain> = inner.iter().collect();
        put_in_order(&mut bores, |it| -it.start().z);
        for bore in bores {
            let (near, far) = (bore.start(), bore.end());
            if end.z - far.z >= NOTHING {
                trace.line(Point::new(far.z, 0.0), far);
            }
            for segment in bore.segments().iter().rev() {
                trace.back_along(&segment.curve);
            }
            if near.z - start.z >= NOTHING {
                trace.line(near, Point::new(near.z, 0.0));
            }
        }
        Ok(Body {
            name: name.into(),
            colour: None,
            left_out: Vec::new(),
            flats: Vec::new(),
            runs: trace.finish(),
        })
    }

    /// The same in a colour.
    pub fn coloured(self, colour: Colour) -> Body {
        Body {
            colour: Some(colour),
            ..self
        }
    }
}

fn whole(outer: &Chain, inner: &[Chain]) -> Result<(), BrokenThrough> {
    let ends = [outer.start().z, outer.end().z];
    // Looked at from both: what is short on one side may lie between two places of the other.
    let chains = inner.iter().chain([outer]);
    let stations = chains
        .flat_map(Chain::segments)
        .flat_map(|segment| (0..=8).map(|eighth| segment.curve.point(f64::from(eighth) / 8.0).z));
    for z in stations {
        // A ring's round outside and inside meet at its ends, and only there.
        if ends.iter().any(|end| (end - z).abs() < NOTHING) {
            continue;
        }
        let bores = inner.iter().filter_map(|bore| bore.radii_at(z));
        let widest = bores.map(|(before, after)| before.max(after));
        let widest = widest.fold(0.0, f64::max);
        let broken = |(before, after): (f64, f64)| widest > before.min(after) - NOTHING;
        if widest > 0.0 && outer.radii_at(z).is_some_and(broken) {
            return Err(BrokenThrough { z_mm: z });
        }
    }
    Ok(())
}

struct Trace {
    runs: Vec<EdgeLoop>,
    open: EdgeLoop,
}

impl Trace {
    fn line(&mut self, from: Point, to: Point) {
        self.edge(Edge {
            curve: Curve::line(from, to),
            backwards: false,
            outside: false,
            from,
            to,
        });
    }

    fn outside(&mut self, curve: Curve) {
        self.edge(Edge {
            curve,
            backwards: false,
            outside: true,
            from: curve.start(),
            to: curve.end(),
        });
    }

    fn back_along(&mut self, curve: &Curve) {
        self.edge(Edge {
            curve: *curve,
            backwards: true,
            outside: false,
            from: curve.end(),
            to: curve.start(),
        });
    }

    fn edge(&mut self, edge: Edge) {
        let Edge {
            curve, from, to, ..
        } = edge;
        let on_axis = from.r < NOTHING && to.r < NOTHING && matches!(curve, Curve::Line(_));
        if from.distance(to) < NOTHING || on_axis {
            return;
        }
        // A vertical line keeps no direction of its own.
        if from.r < NOTHING {
            self.end_run();
        }
        self.open.edges.push(edge);
        if to.r < NOTHING {
            self.end_run();
        }
    }

    fn end_run(&mut self) {
        if !self.open.edges.is_empty() {
            self.runs.push(std::mem::take(&mut self.open));
        }
    }

    /// The last run, where it never reached the axis, goes on where the first began.
    fn finish(mut self) -> Vec<EdgeLoop> {
        if let Some(first) = self.runs.first_mut()
            && first
                .edges
                .first()
                .is_some_and(|edge| edge.from.r >= NOTHING)
        {
            let mut joined = std::mem::take(&mut self.open);
            joined.edges.append(&mut first.edges);
            *first = joined;
        }
        self.end_run();
        self.runs
    }
}

impl Edge {
    /// A piece of an edge that is travelled as its curve runs.
    pub(super) fn part(&self, curve: Curve) -> Edge {
        Edge {
            curve,
            from: curve.start(),
            to: curve.end(),
            ..*self
        }
    }

    pub(super) fn from(&self) -> Point {
        self.from
    }

    pub(super) fn to(&self) -> Point {
        self.to
    }

    /// True where it lies square to the axis.
    pub(super) fn is_face(&self) -> bool {
        self.curve.is_vertical()
    }

    /// The place at a parameter of 0..1 in its direction of travel.
    pub(super) fn point(&self, t: f64) -> Point {
        match t {
            0.0 => self.from,
            1.0 => self.to,
            _ if self.is_face() => self.from + (self.to - self.from) * t,
            _ if self.backwards => self.curve.point(1.0 - t),
            _ => self.curve.point(t),
        }
    }
}

impl EdgeLoop {
    /// True where it goes round without touching the axis.
    pub(super) fn is_loop(&self) -> bool {
        self.edges
            .first()
            .is_some_and(|edge| edge.from.r >= NOTHING)
    }
}

/// True for a place on the axis.
pub(super) fn on_axis(place: Point) -> bool {
    place.r < NOTHING
}
