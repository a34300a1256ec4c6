//! How a place on a part's surface moves as the sizes of the part do.

use super::chain::{Drift, Size};
use crate::{Cut, End, Origin, Part, PartId};
use quillet_geometry::{self as geometry, Length, Tag};

mod met;
mod outside;
mod spot;

pub(crate) use spot::SurfaceSpot;

/// A part of a pen, asked for how its surface moves.
#[derive(Clone, Copy)]
pub(crate) struct Surface<'p> {
    pub(crate) part: &'p Part,
    /// Which part of the pen.
    pub(crate) index: PartId,
    /// Where its threads count as ending.
    pub(crate) threads: ThreadEnd,
}

/// Where a thread counts as ending.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum ThreadEnd {
    /// At its crests: for what passes and what touches.
    Crest,
    /// At its roots: for walls.
    Root,
}

/// Planes that agree within this are one.
const SAME: Length = Length::from_nm(2);
const SAME_MM: f64 = 1e-6;

impl<'p> Surface<'p> {
    /// That of a part, its threads at their crests.
    pub(crate) fn crests(part: &'p Part, index: PartId) -> Surface<'p> {
        Surface {
            part,
            index,
            threads: ThreadEnd::Crest,
        }
    }

    /// How a plane moves along the part's stations, seen from its first end.
    pub(crate) fn plane(self, inside: bool, station: Length) -> Drift {
        let length = self.part.length;
        if station.abs() <= SAME {
            return Drift::default();
        }
        let whole = Drift::of(Size::Whole { part: self.index });
        if (station - length).abs() <= SAME {
            return whole;
        }
        let Some((from, _)) = self.written(inside, station) else {
            return self.met(inside, station.to_mm());
        };
        let distance = |at| Drift::of(self.size(inside, from, at));
        match from {
            End::First => distance(station),
            End::Second => whole.plus(-1.0, &distance(length - station)),
        }
    }

    fn size(self, inside: bool, from: End, at: Length) -> Size {
        Size::Plane {
            part: self.index,
            inside,
            from,
            at,
        }
    }

    /// The end from which a plane is written, and what makes it.
    pub(crate) fn written(self, inside: bool, station: Length) -> Option<(End, Origin)> {
        let near = |at: Length| (at - station).abs() <= SAME;
        let mut stations = self.part.stations.with_ids();
        let mut of_station = || stations.find(|(_, it)| near(it.at));
        let cuts = || {
            let planes = &self.part.profiles.as_ref()?.planes;
            let index = planes.first_at(inside, station, SAME)?;
            Some((self.part.features.get(index)?.end, Origin::Feature(index)))
        };
        match inside {
            true => cuts(),
            false => of_station()
                .map(|(index, it)| (it.from, Origin::Outside(index)))
                .or_else(cuts),
        }
    }

    /// Half a diameter, or what of a thread counts.
    fn radius(self, of: Origin, second: bool) -> Drift {
        let part = self.index;
        let feature = of.feature().and_then(|it| self.part.features.get(it));
        let thread = feature.is_some_and(|it| it.thread().is_some());
        Drift::of(match self.threads == ThreadEnd::Root && thread {
            true => Size::Root { part, of },
            false => Size::Radius { part, of, second },
        })
    }

    /// How a surface's radius moves at a station: `slope` is how the radius grows there.
    pub(crate) fn across(self, origin: Origin, station_mm: f64, slope: f64) -> Drift {
        let radius = |of, second| self.radius(of, second);
        let corner = |at: Drift, of: Drift| of.plus(-slope, &at);
        match origin {
            Origin::Feature(index) => match self.part.features.get(index) {
                Some(cut) if matches!(cut.cut, Cut::Taper { .. }) => {
                    let (near, far) = (radius(origin, false), radius(origin, true));
                    let ends = [(cut.from, near), (cut.to, far)];
                    let ends = ends.map(|(at, of)| (self.part.station(cut.end, at), of));
                    self.between(true, ends, station_mm, slope)
                }
                _ => radius(origin, false),
            },
            Origin::DrillPoint(index) => match self.part.features.get(index) {
                Some(cut) => {
                    let full = self.plane(true, self.part.station(cut.end, cut.to));
                    corner(full, radius(Origin::Feature(index), false))
                }
                None => Drift::default(),
            },
            Origin::FeatureEdge(index) => match self.part.features.get(index) {
                Some(cut) => {
                    let face = self.part.station(cut.end, Length::ZERO);
                    let of = match cut.cut {
                        Cut::Edge(_) => self.beside(cut.end),
                        _ => radius(Origin::Feature(index), false),
                    };
                    corner(self.plane(false, face), of)
                }
                None => Drift::default(),
            },
            Origin::StationEdge(index) => match self.part.stations.get(index) {
                Some(station) => {
                    let second = station.step.is_some_and(|step| step > station.dia);
                    let of = radius(Origin::Outside(index), second);
                    corner(self.plane(false, station.at), of)
                }
                None => Drift::default(),
            },
            Origin::Outside(index) => self.outside(index, station_mm, slope),
            _ => Drift::default(),
        }
    }

    /// The surface that a broken corner of an end was cut from; of two corners at one end, both.
    fn beside(self, end: End) -> Drift {
        let Some(profiles) = &self.part.profiles else {
            return Drift::default();
        };
        let mut pieces: Vec<_> = profiles.crest.outer.segments().iter().collect();
        if end == End::Second {
            pieces.reverse();
        }
        let other = |it: &&&geometry::Segment| {
            !profiles.origin(it.tag).is_edge() && !it.curve.is_vertical()
        };
        let Some(next) = pieces.iter().find(other) else {
            return Drift::default();
        };
        let at = match end {
            End::First => next.curve.start(),
            End::Second => next.curve.end(),
        };
        // A corner is broken on the crests that are left, before the thread is cut.
        let crests = Surface::crests(self.part, self.index);
        crests.across(profiles.origin(next.tag), at.z, 0.0)
    }

    /// How the radius of a corner moves, where one surface ends at a plane.
    pub(crate) fn corner(self, station_mm: f64, radius_mm: f64) -> Drift {
        let Some(profiles) = &self.part.profiles else {
            return Drift::default();
        };
        let here = |at: geometry::Point| {
            (at.z - station_mm).abs() < SAME_MM && (at.r - radius_mm).abs() < SAME_MM
        };
        let solids = [&profiles.crest, &profiles.root];
        let chains = solids.into_iter().flat_map(|solid| {
            std::iter::once((&solid.outer, false)).chain(solid.inner.iter().map(|it| (it, true)))
        });
        let mut sloping = None;
        for (chain, inside) in chains {
            let near = chain.near(station_mm, SAME_MM).iter();
            for piece in near.filter(|it| !it.curve.is_vertical()) {
                let t = match (here(piece.curve.start()), here(piece.curve.end())) {
                    (true, _) => 0.0,
                    (_, true) => 1.0,
                    _ => continue,
                };
                let slope = piece.curve.slope(t);
                let origin = profiles.origin(piece.tag);
                if slope == 0.0 {
                    return self.across(origin, station_mm, slope);
                }
                sloping.get_or_insert((origin, slope, inside));
            }
        }
        sloping.map_or_else(Drift::default, |(origin, slope, inside)| {
            let plane = self.plane(inside, Length::mm(station_mm));
            self.across(origin, station_mm, slope).plus(slope, &plane)
        })
    }

    /// The slope of a piece of the surface at a station, and whether the piece ends there.
    pub(crate) fn slope(self, tag: Tag, station_mm: f64) -> (f64, bool) {
        let Some(profiles) = &self.part.profiles else {
            return (0.0, true);
        };
        let solid = &profiles.crest;
        let chains = std::iter::once(&solid.outer).chain(&solid.inner);
        let near = chains.flat_map(|it| it.near(station_mm, SAME_MM));
        let mut pieces = near.filter(|it| it.tag == tag);
        let found = pieces.find_map(|it| {
            let (a, b) = (it.curve.start().z, it.curve.end().z);
            let within = a - SAME_MM <= station_mm && station_mm <= b + SAME_MM && b > a;
            let slope = within.then(|| it.curve.slope(it.curve.param_at_z(station_mm)))?;
            let ends = station_mm - a < SAME_MM || b - station_mm < SAME_MM;
            slope.is_finite().then_some((slope, ends))
        });
        found.unwrap_or((0.0, true))
    }
}
