//! The surfaces tools leave, from what the route says of them and from the part's stations.

use super::as_one::laid;
use super::routed;
use quillet_geometry::{
    self as geometry, Arc, Chain, Cubic, Curve, Length, Line, Point, Segment, Tag,
};
use quillet_model::{End, Part};
use quillet_plan::{InsideCut, InsideShape, Nub, Plan, Route, ThreadCut, TurnCut, Work};

pub(crate) struct Shape<'a> {
    part: &'a Part,
    /// The surface through the stations.
    outline: Option<Chain>,
}

impl<'a> Shape<'a> {
    /// The part of a route; of a work the parts whose outsides it turns.
    pub(crate) fn of(plan: &Plan, route: &'a Route) -> Self {
        let Some(work) = &route.turns else {
            return Shape {
                part: &route.part,
                outline: outline(&route.part),
            };
        };
        let each = work.members.iter().filter_map(|it| {
            let mut routes = plan.routes.iter();
            let own = routes.find(|own| routed(own, &it.name))?;
            let shaped = outline(&own.part);
            let shaped = shaped.or_else(|| Some(own.part.profiles.as_ref()?.turned().clone()));
            Some(laid(&shaped?, it.place))
        });
        let each: Vec<Chain> = each.collect();
        let all = geometry::envelope::greatest(&each, f64::NEG_INFINITY, f64::INFINITY);
        Shape {
            part: &route.part,
            outline: all.into_iter().next(),
        }
    }

    /// The stretches the outside passes turn.
    pub(crate) fn spans(&self, route: &Route) -> Vec<(Length, Length)> {
        let passes = route.operations.iter().find_map(|it| match &it.work {
            Work::Outside(pass) => Some(pass.spans.clone()),
            _ => None,
        });
        passes.unwrap_or_default()
    }

    pub(crate) fn level(&self, from: Length, to: Length, dia: Length) -> Chain {
        Chain::polyline(Tag(0), &[Point::turned(from, dia), Point::turned(to, dia)])
            .expect("a cut has a length")
    }

    pub(crate) fn turned(&self, cut: &TurnCut) -> Chain {
        let (a, b) = (
            self.part.station(cut.end, cut.from),
            self.part.station(cut.end, cut.to),
        );
        self.level(a.min(b), a.max(b), cut.dia)
    }

    /// The outline over the stretches, with something left on, and a core left at an end.
    pub(crate) fn outline(
        &self,
        spans: &[(Length, Length)],
        over: Length,
        core: Option<(End, Length)>,
    ) -> Vec<Chain> {
        let Some(outline) = &self.outline else {
            return Vec::new();
        };
        let raised = raised(outline, over.to_mm() / 2.0);
        let length = self.part.length.to_mm();
        let kept = match core {
            Some((end, dia)) => {
                let radius = dia.to_mm() / 2.0;
                let (from, to) = match end {
                    End::First => (0.0, length / 2.0),
                    End::Second => (length / 2.0, length),
                };
                let ends = [Point::new(from, radius), Point::new(to, radius)];
                let nub = Chain::polyline(Tag(0), &ends).expect("a nub has a length");
                geometry::envelope::greatest(&[raised, nub], f64::NEG_INFINITY, f64::INFINITY)
            }
            None => vec![raised],
        };
        let within = |chain: &Chain| {
            let each = spans
                .iter()
                .filter_map(|(a, b)| chain.between(a.to_mm(), b.to_mm()));
            each.map(graph).collect::<Vec<_>>()
        };
        kept.iter().flat_map(within).collect()
    }

    /// The nub beyond an end's face.
    pub(crate) fn nub(&self, nub: Nub, from: Length, to: Length) -> Chain {
        match nub.end {
            End::First => self.level(from, Length::ZERO, nub.dia),
            End::Second => self.level(self.part.length, to, nub.dia),
        }
    }

    pub(crate) fn hole(&self, cut: &InsideCut) -> Vec<Chain> {
        let (from, to) = (cut.from.to_mm(), cut.to.to_mm());
        let level = |dia: Length, from: f64| {
            let radius = dia.to_mm() / 2.0;
            vec![Point::new(from, radius), Point::new(to, radius)]
        };
        let places = match cut.shape {
            InsideShape::Drill { dia, point, .. } => {
                let mut places = level(dia, 0.0);
                let radius = dia.to_mm() / 2.0;
                places.push(Point::new(to + radius / (point.to_rad() / 2.0).tan(), 0.0));
                places
            }
            InsideShape::Ream { dia } => level(dia, 0.0),
            InsideShape::Bore { dia } | InsideShape::Recess { dia } => level(dia, from),
            InsideShape::Taper { from_dia, to_dia } => {
                vec![
                    Point::new(from, from_dia.to_mm() / 2.0),
                    Point::new(to, to_dia.to_mm() / 2.0),
                ]
            }
            InsideShape::Countersink { dia, angle } => {
                let radius = dia.to_mm() / 2.0;
                vec![
                    Point::new(0.0, radius),
                    Point::new(radius / (angle.to_rad() / 2.0).tan(), 0.0),
                ]
            }
        };
        self.placed(cut.end, &places)
    }

    /// A thread at its crests and at its roots.
    pub(crate) fn thread(&self, cut: &ThreadCut) -> (Vec<Chain>, Vec<Chain>) {
        let form = &cut.thread.thread;
        let (crest, root) = match cut.inside {
            true => (form.minor_diameter(), form.major()),
            false => (form.major(), form.root_diameter()),
        };
        let level = |dia: Length| {
            let radius = dia.to_mm() / 2.0;
            let ends = [cut.from, cut.to].map(|z| Point::new(z.to_mm(), radius));
            self.placed(cut.end, &ends)
        };
        (level(crest), level(root))
    }

    fn placed(&self, end: End, places: &[Point]) -> Vec<Chain> {
        let chain = Chain::polyline(Tag(0), places).expect("a cut runs inward");
        vec![match end {
            End::First => chain,
            End::Second => chain.reversed(self.part.length.to_mm()),
        }]
    }
}

/// A chain without the faces at its ends, which belong to its neighbours.
fn graph(chain: Chain) -> Chain {
    let mut pieces = chain.segments().to_vec();
    while pieces.first().is_some_and(|it| it.curve.is_vertical()) {
        pieces.remove(0);
    }
    while pieces.last().is_some_and(|it| it.curve.is_vertical()) {
        pieces.pop();
    }
    Chain::new(pieces).expect("it was a chain")
}

/// A surface with stock left on it.
fn raised(chain: &Chain, by: f64) -> Chain {
    let up = |place: Point| Point::new(place.z, place.r + by);
    let pieces = chain.segments().iter().map(|piece| {
        let curve = match piece.curve {
            Curve::Line(line) => Curve::Line(Line {
                start: up(line.start),
                end: up(line.end),
            }),
            Curve::Arc(arc) => {
                let (start, end) = (up(arc.start()), up(arc.end()));
                let raised = Arc::new(
                    start,
                    end,
                    arc.semi_z_mm(),
                    arc.semi_r_mm(),
                    arc.is_convex(),
                );
                Curve::Arc(raised.expect("the same arc, further out"))
            }
            Curve::Cubic(cubic) => {
                Curve::Cubic(Cubic::new(cubic.points().map(up)).expect("the same cubic"))
            }
        };
        Segment {
            curve,
            tag: piece.tag,
        }
    });
    Chain::new(pieces).expect("the same chain, further out")
}

/// The surface through a part's stations.
fn outline(part: &Part) -> Option<Chain> {
    let stations: Vec<geometry::Station> = part
        .stations
        .iter()
        .map(|station| geometry::Station {
            at: station.at,
            arrives: station.dia,
            leaves: station.step.unwrap_or(station.dia),
            shape: station.shape,
            edge: station.edge,
            tag: Tag(0),
            edge_tag: Tag(0),
        })
        .collect();
    geometry::outside(&stations).chain
}
