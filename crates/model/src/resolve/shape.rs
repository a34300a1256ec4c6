//! What is left of a part when all is cut.

use super::Resolver;
use super::deep_sink::deep;
use super::lines::incomplete;
use super::profile_builder::{ProfileBuilder, ThreadsOff, tag};
use super::side_room::without_room;
use super::through::{BrokenSurfaces, through};
use crate::planes::CutPlanes;
use crate::side_shape::not_round;
use crate::{CutId, NotRound, Origin, Part, Profiles, SideId, Solid, StationId};
use quillet_geometry::envelope::smallest;
use quillet_geometry::{
    self as geometry, Arc, Chain, Curve, EdgeFlaw, Flaw, Length, Point, Segment, StationFlaw, Tag,
};
use quillet_syntax::{Finding, Severity, Span, text};

impl Resolver<'_> {
    /// Cuts the part, and says where its outside is not said; not where a station could not
    /// be read, since that is told of already. Smallest outside wins, largest inside wins, edges last.
    pub(super) fn shape(&mut self, part: &mut Part) {
        if part.ring().is_some() && part.stations.is_empty() {
            part.profiles = ring(part);
            return;
        }
        if part.stations.is_empty() && part.features.is_empty() && part.tube().is_none() {
            if !part.whole {
                return;
            }
            let message = format!("{} has no outside", part.name.text);
            self.emit(incomplete(
                part.name.span,
                message,
                "add a line such as: outside dia 12",
            ));
            return;
        }
        let left = cut(part);
        for StationFlaw { station, flaw } in left.stations {
            let finding = flawed_station(part.stations[StationId::nth(station)].span, flaw);
            finding.into_iter().for_each(|it| self.emit(it));
        }
        for (feature, flaw) in left.edges {
            self.emit(broken_edge(part.features[feature].span, flaw));
        }
        let Some(mut profiles) = left.profiles else {
            return;
        };
        if part.whole {
            self.uncovered(part, &profiles);
        }
        let mut through = match part.outside_known {
            true => through(part, &profiles),
            false => BrokenSurfaces::default(),
        };
        through.also(deep(&self.design, part));
        if !through.refused.is_empty() {
            self.lost += through.findings.len();
            through.findings.into_iter().for_each(|it| self.emit(it));
            without(part, &through.refused);
            profiles = cut(part).profiles.unwrap_or(profiles);
        }
        flatten(part, &mut profiles);
        let crowded = without_room(part, &profiles);
        crowded.into_iter().for_each(|it| self.emit(it));
        part.profiles = Some(profiles);
    }

    /// Where neither the outside nor a cut says the surface.
    fn uncovered(&mut self, part: &Part, profiles: &Profiles) {
        let bare = profiles
            .crest
            .outer
            .segments()
            .iter()
            .filter(|piece| profiles.origin(piece.tag) == Origin::Stock)
            .map(|piece| (piece.curve.start().z, piece.curve.end().z))
            .filter(|(from, to)| to - from > 1e-6);
        let bare: Vec<_> = bare.collect();
        for (from, to) in bare {
            let (from, to) = (Length::mm(from), Length::mm(to));
            self.emit(
                Finding::new(
                    "unshaped-outside",
                    Severity::Error,
                    part.name.span,
                    text!(
                        "the outside of {} says nothing from {} to {}; the rod would be left as it is",
                        part.name.text,
                        from,
                        to
                    ),
                )
                .hint("add a station at each end of that stretch, or a tenon over it"),
            );
        }
    }
}

/// A part when all is cut, and what could not be made of it.
struct ShapedPart {
    profiles: Option<Profiles>,
    stations: Vec<StationFlaw>,
    edges: Vec<(CutId, EdgeFlaw)>,
}

/// Gives a part that is not round its two outlines: the greatest radius round the turn for what
/// passes and touches, the least for walls.
fn flatten(part: &Part, profiles: &mut Profiles) {
    let turned = &profiles.crest.outer;
    let cuts = not_round(part, turned);
    if cuts.is_empty() {
        return;
    }
    let sides = (0..part.sides().len()).map(SideId::nth);
    let tags: Vec<Tag> = sides
        .map(|id| tag(&mut profiles.origins, Origin::Side(id)))
        .collect();
    let tag_of = |id: SideId| tags.get(id.index()).copied().unwrap_or_default();
    let low = cuts.low(turned, tag_of);
    let high = cuts.high(turned, tag_of);
    if let Some(root) = smallest(&[profiles.root.outer.clone(), low])
        .into_iter()
        .next()
    {
        profiles.root.outer = root;
    }
    profiles.crest.outer = high;
    profiles.not_round = cuts;
}

/// Leaves cuts and broken corners out of a part.
fn without(part: &mut Part, refused: &[Origin]) {
    for (index, station) in part.stations.ids().zip(part.stations.iter_mut()) {
        if refused.contains(&Origin::StationEdge(index)) {
            station.edge = None;
        }
    }
    let mut cuts = part.features.ids();
    part.features.retain(|_| {
        let cut = cuts.next();
        !refused
            .iter()
            .any(|it| it.feature().is_some() && it.feature() == cut)
    });
}

/// Cuts a part anew that was cut before and has its sizes changed since; where that leaves nothing it
/// has no shape any more.
pub(crate) fn recut(part: &mut Part, threads: &ThreadsOff) {
    if part.ring().is_some() && part.stations.is_empty() {
        return;
    }
    let left = cut_with(part, threads);
    part.shaped &= left.stations.is_empty() && left.edges.is_empty();
    let Some(mut profiles) = left.profiles else {
        (part.profiles, part.shaped) = (None, false);
        return;
    };
    flatten(part, &mut profiles);
    part.profiles = Some(profiles);
    part.shaped &= part.is_left();
}

fn cut(part: &Part) -> ShapedPart {
    cut_with(part, &ThreadsOff::default())
}

fn cut_with(part: &Part, threads: &ThreadsOff) -> ShapedPart {
    let mut origins = Vec::new();
    let stations: Vec<geometry::Station> = part
        .stations
        .with_ids()
        .map(|(index, station)| geometry::Station {
            at: station.at,
            arrives: station.dia,
            leaves: station.step.unwrap_or(station.dia),
            shape: station.shape,
            edge: station.edge,
            tag: tag(&mut origins, Origin::Outside(index)),
            edge_tag: tag(&mut origins, Origin::StationEdge(index)),
        })
        .collect();
    let outside = geometry::outside(&stations);
    let mut shaper = ProfileBuilder::new(part, outside.chain, origins, threads);
    let mut profiles = shaper.profiles();
    if let Some(profiles) = &mut profiles {
        profiles.planes = CutPlanes::of(&part.features, part.length);
    }
    ShapedPart {
        profiles,
        stations: outside.flaws,
        edges: shaper.flaws,
    }
}

fn flawed_station(at: Span, flaw: Flaw) -> Option<Finding> {
    match flaw {
        Flaw::ArcTooTight { least } => Some(
            Finding::new(
                "out-of-range",
                Severity::Error,
                at,
                text!(
                    "an arc of this radius does not reach from the station before; {} is the least that does",
                    least
                ),
            )
            .hint("write a larger radius, or bring the stations nearer"),
        ),
        Flaw::Edge(flaw) => Some(broken_edge(at, flaw)),
        // Stations are sorted and each place is taken once before they come here.
        Flaw::OutOfOrder => None,
    }
}

fn broken_edge(at: Span, flaw: EdgeFlaw) -> Finding {
    let message = match flaw {
        EdgeFlaw::NoCorner => "there is no corner here to break",
        EdgeFlaw::TooLarge => "this edge is larger than the surfaces beside it",
    };
    let hint = match flaw {
        EdgeFlaw::NoCorner => "take it out, or put it where two surfaces meet at an angle",
        EdgeFlaw::TooLarge => "write a smaller one",
    };
    Finding::new("out-of-range", Severity::Error, at, message).hint(hint)
}

/// An O-ring: the circle of its cord, swept.
fn ring(part: &Part) -> Option<Profiles> {
    let ring = part.ring()?;
    let cord = ring.cord.to_mm();
    let middle = (ring.inside.to_mm() + cord) / 2.0;
    let mut origins = Vec::new();
    let tag = tag(&mut origins, Origin::Ring);
    let ends = [
        Point::new(0.0, middle),
        Point::new(cord / 2.0, middle + cord / 2.0),
    ];
    let half = |from: Point, to: Point, convex: bool| {
        Arc::circular(from, to, cord / 2.0, convex).map(|arc| Segment {
            curve: Curve::Arc(arc),
            tag,
        })
    };
    let far = Point::new(cord, middle);
    let low = Point::new(cord / 2.0, middle - cord / 2.0);
    let outer = Chain::new([half(ends[0], ends[1], true)?, half(ends[1], far, true)?])?;
    let inner = Chain::new([half(ends[0], low, false)?, half(low, far, false)?])?;
    let solid = Solid {
        outer,
        inner: vec![inner],
    };
    Some(Profiles {
        metal: solid.clone(),
        root: solid.clone(),
        crest: solid,
        not_round: NotRound::default(),
        origins,
        planes: CutPlanes::default(),
    })
}
