//! The strip to cut off a part's page: calipers over the 1:1 template.

use quillet_geometry::{Length, put_in_order};
use quillet_model::{End, Part, Profiles, Units};
use quillet_plan::{CaliperRow, CaliperTable, NUB_DIA, ROUGH_OVER, Route, Work, caliper_table};
use serde::Serialize;

/// The strip of a part.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Strip {
    /// The face that stations are measured from.
    pub from: String,
    /// The other end.
    pub to: String,
    /// What is left to sand, as the strip says it.
    pub leave: String,
    /// Stations, outward from the face.
    pub columns: Vec<Station>,
}

/// A station of the strip.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Station {
    /// How far from the face.
    pub at: String,
    /// Where roughing stops.
    pub rough: String,
    /// The finished diameter.
    pub finished: String,
    /// The diameter that was read, where it is made.
    pub as_made: Option<String>,
    /// How far from the part's first end, mm.
    #[serde(skip)]
    pub station_mm: f64,
}

/// Columns 11.5 mm wide: no more have room.
pub(super) const MOST: usize = 13;
/// Between the regular stations of a part: closer on a short one.
const STEP: Length = Length::from_nm(5_000_000);
const SHORT_STEP: Length = Length::from_nm(3_000_000);
const SHORT: Length = Length::from_nm(40_000_000);
/// A regular station nearer than this share of a step to a written one is dropped.
const NEAR: f64 = 0.8;

/// A station while the strip is put together.
#[derive(Clone, Copy)]
struct StripStation {
    /// From the face.
    inward: f64,
    row: CaliperRow,
    /// Written by the maker, or the last: it stays.
    keeps: bool,
}

/// The strip of a route; none where its outside has no shape to turn.
pub(super) fn strip(route: &Route, units: Units) -> Option<Strip> {
    let part = &route.part;
    let from = datum(part);
    let step = if part.length < SHORT {
        SHORT_STEP
    } else {
        STEP
    };
    let table = caliper_table(part, &route.asked, from, step)?;
    let turned = turned(route)?;
    let length = part.length.to_mm();
    let all = kept(route, (from, step), &table, &turned);
    let station = |at: f64| if from == End::First { at } else { length - at };
    let ask = all.iter().any(|it| it.row.asked.is_some());
    let columns = all.iter().map(|it| Station {
        at: units.plain(Length::mm(it.inward)),
        // Where the stock is no fatter there is nothing to rough.
        rough: match it.row.rough < route.blank.dia {
            true => figure(units, it.row.rough, false),
            false => "–".into(),
        },
        finished: figure(units, finished(it, length), ask && it.row.asked.is_some()),
        as_made: as_made(route, station(it.inward)).map(|it| units.number(it)),
        station_mm: station(it.inward),
    });
    let columns: Vec<Station> = columns.collect();
    // One diameter all along is told by its row: nothing is laid against a straight edge.
    let shaped = columns
        .windows(2)
        .any(|it| it[0].finished != it[1].finished);
    shaped.then(|| Strip {
        from: part.end_name(from).to_owned(),
        to: part.end_name(from.other()).to_owned(),
        leave: match sanded(route) {
            true => format!("leave {} to sand", units.plain(quillet_plan::FINISH_OVER)),
            false => "to the hole as made".into(),
        },
        columns,
    })
}

/// The stations of a caliper table that stand on the strip, inward.
fn kept(
    route: &Route,
    (from, step): (End, Length),
    table: &CaliperTable,
    turned: &[(f64, f64)],
) -> Vec<StripStation> {
    let part = &route.part;
    let length = part.length.to_mm();
    let least = NUB_DIA.to_mm() + 2.0;
    let station = |at: f64| if from == End::First { at } else { length - at };
    let written = |at: f64| {
        let mut own = part.stations.iter();
        own.any(|it| (it.at.to_mm() - station(at)).abs() < 5e-3)
    };
    let shown = |row: &CaliperRow| {
        let at = station(row.at.to_mm());
        turned
            .iter()
            .any(|it| it.0 - 1e-6 <= at && at <= it.1 + 1e-6)
    };
    let mut all: Vec<StripStation> = Vec::new();
    for row in table.rows.iter().filter(|it| shown(it)) {
        let at = row.at.to_mm();
        let mut bounds = turned.iter().flat_map(|it| [it.0, it.1]);
        let edge = bounds.any(|it| (it - station(at)).abs() < 1e-6);
        let wide = row.before.max(row.after).to_mm() >= least;
        if wide && (written(at) || edge || !row.edge) {
            all.push(StripStation {
                inward: at,
                row: *row,
                keeps: written(at) || edge,
            });
        }
    }
    all.extend(
        ends(route, from, least)
            .into_iter()
            .filter(|it| shown(&it.row)),
    );
    put_in_order(&mut all, |it| it.inward);
    all.dedup_by(|b, a| {
        let same = (a.inward - b.inward).abs() < 0.3;
        a.keeps |= same && b.keeps;
        same
    });
    thin_out(&mut all, NEAR * step.to_mm());
    all
}

/// The diameter that was read at a station, mm.
fn as_made(route: &Route, station_mm: f64) -> Option<Length> {
    let mut read = route.outside_as_made.iter();
    let here = read.find(|it| (it.0.to_mm() - station_mm).abs() < 5e-3);
    here.map(|it| it.1)
}

/// At a step the larger diameter, but at the ends what is there.
fn finished(at: &StripStation, length: f64) -> Length {
    match at.inward {
        it if it < 1e-6 => at.row.after,
        it if it > length - 1e-6 => at.row.before,
        _ => at.row.before.max(at.row.after),
    }
}

/// Where stations are measured from: an end that stays flat, the first if both do.
fn datum(part: &Part) -> End {
    let pointed = |end: End| {
        let outer = part.profiles.as_ref().map(Profiles::turned);
        let at = part.station(end, Length::ZERO).to_mm();
        let radii = outer.and_then(|it| it.radii_at(at));
        radii.is_some_and(|(one, two)| one.max(two) < 1e-3)
    };
    match pointed(End::First) && !pointed(End::Second) {
        true => End::Second,
        false => End::First,
    }
}

fn sanded(route: &Route) -> bool {
    let mut all = route.operations.iter();
    all.any(|it| matches!(it.work, Work::Polish { .. } | Work::RemoveNub { .. }))
}

/// The stretches of the outside that the route turns to the template, stations, mm; none where it turns none.
fn turned(route: &Route) -> Option<Vec<(f64, f64)>> {
    route.operations.iter().find_map(|it| match &it.work {
        Work::Outside(pass) => Some(
            pass.spans
                .iter()
                .map(|it| (it.0.to_mm(), it.1.to_mm()))
                .collect(),
        ),
        _ => None,
    })
}

/// The last stations before a closed end: where the diameter is the nub's and a little.
fn ends(route: &Route, from: End, least: f64) -> Vec<StripStation> {
    let part = &route.part;
    let length = part.length.to_mm();
    let Some(outer) = part.profiles.as_ref().map(Profiles::turned) else {
        return Vec::new();
    };
    let dia = |inward: f64| {
        let at = if from == End::First {
            inward
        } else {
            length - inward
        };
        let radii = outer.radii_at(at);
        radii.map_or(0.0, |(one, two)| 2.0 * one.min(two))
    };
    let mut found = Vec::new();
    for (end, way) in [(0.0, 1.0), (length, -1.0)] {
        if dia(end) > least {
            continue;
        }
        let steps = (length * 2.0) as u32;
        let wide = (0..steps)
            .map(|it| end + way * f64::from(it) * 0.25)
            .find(|it| dia(*it) >= least);
        let Some(wide) = wide.filter(|it| (it - end).abs() < length / 2.0) else {
            continue;
        };
        let (mut low, mut high) = (wide - way * 0.25, wide);
        for _ in 0..30 {
            let middle = (low + high) / 2.0;
            if dia(middle) >= least {
                high = middle
            } else {
                low = middle
            }
        }
        // To a whole millimetre where that is near enough to the size.
        let near = high.round();
        let at = if (dia(near) - least).abs() < 0.25 {
            near
        } else {
            (high * 10.0).round() / 10.0
        };
        let size = Length::mm(dia(at));
        let rough = Length::mm(((size + ROUGH_OVER).to_mm() * 10.0).round() / 10.0);
        found.push(StripStation {
            inward: at,
            keeps: true,
            row: CaliperRow {
                at: Length::mm(at),
                before: size,
                after: size,
                rough,
                before_sanding: size,
                finished: false,
                edge: false,
                asked: None,
            },
        });
    }
    found
}

/// Drops steps that lie near a kept station, then those that say least.
fn thin_out(all: &mut Vec<StripStation>, near_mm: f64) {
    let kept: Vec<f64> = all
        .iter()
        .filter(|it| it.keeps)
        .map(|it| it.inward)
        .collect();
    all.retain(|it| {
        it.keeps
            || kept
                .iter()
                .all(|at| (at - it.inward).abs() + 1e-6 >= near_mm)
    });
    while all.len() > MOST {
        let dia = |it: &StripStation| it.row.before.max(it.row.after).to_mm();
        let off = |at: usize| {
            let (a, b, c) = (&all[at - 1], &all[at], &all[at + 1]);
            let share = (b.inward - a.inward) / (c.inward - a.inward);
            (dia(a) + (dia(c) - dia(a)) * share - dia(b)).abs()
        };
        let steps = || (1..all.len() - 1).filter(|at| !all[*at].keeps);
        let least = steps().min_by(|a, b| off(*a).total_cmp(&off(*b)));
        // Where all are written, the one that says least goes all the same.
        let any = || (1..all.len() - 1).min_by(|a, b| off(*a).total_cmp(&off(*b)));
        match least.or_else(any) {
            Some(at) => all.remove(at),
            None => return,
        };
    }
}

fn figure(units: Units, dia: Length, fine: bool) -> String {
    match (units, fine) {
        (Units::Millimetres, false) => format!("{:.1}", dia.to_mm()),
        (Units::Millimetres, true) => format!("{:.2}", dia.to_mm()),
        (Units::Inches, _) => format!("{:.3}", dia.to_inches()),
    }
}
