//! How the turned outside moves between its stations.

use super::{SAME_MM, Surface};
use crate::pen::assembly::chain::Drift;
use crate::{ById, Origin, Station, StationId};
use quillet_geometry::{self as geometry, Length, Shape, Tag};

impl Surface<'_> {
    /// Between two stations that are joined straight.
    pub(super) fn between(
        self,
        inside: bool,
        ends: [(Length, Drift); 2],
        at_mm: f64,
        slope: f64,
    ) -> Drift {
        let [(from, near), (to, far)] = ends;
        let share = (at_mm - from.to_mm()) / (to - from).to_mm();
        let moved = |at: Length, of: &Drift| of.clone().plus(-slope, &self.plane(inside, at));
        match share.is_finite() {
            true => moved(from, &near)
                .times(1.0 - share)
                .plus(share, &moved(to, &far)),
            false => near,
        }
    }

    /// The radius in which the outside that comes to a station ends, at this end of it.
    pub(super) fn ending(self, index: StationId, at_mm: f64) -> Drift {
        let stations = &self.part.stations;
        let before = index.before().and_then(|it| Some((it, stations.get(it)?)));
        match before.filter(|(_, it)| (it.at.to_mm() - at_mm).abs() < 2.0 * SAME_MM) {
            Some((before, it)) => self.radius(Origin::Outside(before), it.step.is_some()),
            None => self.radius(Origin::Outside(index), false),
        }
    }

    /// The outside that comes to a station.
    pub(super) fn outside(self, index: StationId, at_mm: f64, slope: f64) -> Drift {
        let stations = &self.part.stations;
        let Some(to) = stations.get(index) else {
            return Drift::default();
        };
        let radius = |index, second| self.radius(Origin::Outside(index), second);
        let Some((before, from)) = index.before().and_then(|it| Some((it, stations.get(it)?)))
        else {
            return radius(index, false);
        };
        if to.span == from.span && to.dia_span == from.dia_span {
            // `outside dia 12` is one size.
            return radius(before, false);
        }
        if to.shape == Shape::Straight {
            let ends = [
                (from.at, radius(before, from.step.is_some())),
                (to.at, radius(index, false)),
            ];
            return self.between(false, ends, at_mm, slope);
        }
        // Where a curve ends, it lies on that station alone.
        for (station, of) in [
            (from, radius(before, from.step.is_some())),
            (to, radius(index, false)),
        ] {
            if (station.at.to_mm() - at_mm).abs() < SAME_MM && slope.is_finite() {
                return of.plus(-slope, &self.plane(false, station.at));
            }
        }
        self.along_curve(index, (from, to), at_mm)
    }

    /// On a curve: moved station by station, as far as it may reach.
    fn along_curve(self, index: StationId, (from, to): (&Station, &Station), at_mm: f64) -> Drift {
        let stations = &self.part.stations;
        let radius = |index, second| self.radius(Origin::Outside(index), second);
        let at_mm = at_mm.clamp(
            from.at.to_mm() + 2.0 * STEP.to_mm(),
            to.at.to_mm() - 2.0 * STEP.to_mm(),
        );
        let mut found = Drift::default();
        let first = index.index().saturating_sub(REACH);
        let near = stations
            .with_ids()
            .skip(first)
            .take(index.index() + REACH - first);
        for (near, station) in near {
            let grows = |change: fn(&mut geometry::Station, Length)| {
                let radius = |by: Length| curved(stations, near, change, by, at_mm);
                let (a, b) = (radius(STEP), radius(Length::ZERO - STEP));
                a.zip(b)
                    .map_or(0.0, |(a, b)| (a - b) / (2.0 * STEP.to_mm()))
            };
            let along = grows(|it, by| it.at += by);
            found = found.plus(along, &self.plane(false, station.at));
            // Half a diameter grows by half as much.
            match station.step {
                None => {
                    let both = grows(|it, by| {
                        it.arrives += by;
                        it.leaves += by;
                    });
                    found = found.plus(2.0 * both, &radius(near, false));
                }
                Some(_) => {
                    let first = grows(|it, by| it.arrives += by);
                    let second = grows(|it, by| it.leaves += by);
                    found = found.plus(2.0 * first, &radius(near, false));
                    found = found.plus(2.0 * second, &radius(near, true));
                }
            }
        }
        found
    }
}

/// By so much a station is moved to see what a curve does.
const STEP: Length = Length::from_nm(1_000);
/// A smooth curve's slope at a station depends on the stations beside it.
const REACH: usize = 4;

/// The radius of the outside at a place, one station changed.
fn curved(
    stations: &ById<StationId, Station>,
    index: StationId,
    change: fn(&mut geometry::Station, Length),
    by: Length,
    at_mm: f64,
) -> Option<f64> {
    let mut drawn = drawn(stations);
    change(drawn.get_mut(index)?, by);
    let chain = geometry::outside(&drawn).chain?;
    Some(chain.radii_at(at_mm)?.0)
}

/// The stations by themselves, their corners sharp; each piece bears the number of the station it
/// comes to.
fn drawn(stations: &ById<StationId, Station>) -> ById<StationId, geometry::Station> {
    let mut number = 0..;
    stations.map(|it| geometry::Station {
        at: it.at,
        arrives: it.dia,
        leaves: it.step.unwrap_or(it.dia),
        shape: it.shape,
        edge: None,
        tag: Tag(number.next().unwrap_or_default()),
        edge_tag: Tag(0),
    })
}
