//! Spindle speeds.

use quillet_geometry::Length;
use quillet_model::{Bench, Material};
use quillet_standards::material::{Operation as Cutting, spindle_speed};

/// The spindle speeds to choose from.
#[derive(Clone, Debug, PartialEq)]
pub struct Speed {
    /// Slowest, rev/min.
    pub low_rev_min: f64,
    /// Fastest, rev/min.
    pub high_rev_min: f64,
    /// The lathe's own speeds that serve, slowest first, a step being a range of no width;
    /// empty where the lathe is not known.
    pub settings_rev_min: Vec<(f64, f64)>,
    /// The cutting speeds they come from, low and high, m/min.
    pub cutting_m_min: (f64, f64),
    /// On this diameter.
    pub dia: Length,
    /// The lathe does not go as the material asks.
    pub limited: Option<SpeedLimit>,
}

/// Where the lathe cannot go as the material asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SpeedLimit {
    /// It is capped at the lathe's fastest, within what the material bears.
    Capped,
    /// Even the lathe's fastest is slower than the material likes: slow, not wrong.
    TooSlow,
    /// Even the lathe's slowest is faster than the material bears.
    TooFast,
}

/// What is done at speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pace {
    /// Drilling.
    Drill,
    /// Turning, boring and facing.
    Turn,
    /// Reaming: half the drill's speed (common practice, no published source).
    Ream,
    /// Parting: half the turning speed (common practice, no published source).
    Part,
    /// Sanding and polishing: a third of the turning speed, for heat ruins a finish (common
    /// practice, no published source).
    Sand,
    /// Single-point threading: a quarter of the turning speed (common practice, no published
    /// source).
    Thread,
}

/// The spindle speeds for work on a diameter: n = 1000·v / (π·d), within what the lathe does.
///
/// The slowest of several materials decides. None where no cutting speed is known.
pub fn speed<'a>(
    pace: Pace,
    dia: Length,
    materials: impl IntoIterator<Item = &'a Material>,
    bench: Option<&Bench>,
) -> Option<Speed> {
    let ranges: Option<Vec<(f64, f64)>> = materials
        .into_iter()
        .map(|material| cutting_speed(pace, material))
        .collect();
    let (low, high) = ranges?
        .into_iter()
        .reduce(|a, b| (a.0.min(b.0), a.1.min(b.1)))?;
    if !dia.is_positive() {
        return None;
    }
    Some(within_lathe((low, high), dia, bench))
}

fn cutting_speed(pace: Pace, material: &Material) -> Option<(f64, f64)> {
    let row = |operation| material.kind.cutting(operation)?.speed_m_min();
    let (drilling, turning) = (row(Cutting::Drilling), row(Cutting::Turning));
    let found = match pace {
        Pace::Drill | Pace::Ream => drilling.or(turning),
        Pace::Turn | Pace::Part | Pace::Sand | Pace::Thread => turning.or(drilling),
    };
    let (low, high) = material
        .speed_m_min
        .or(found.map(|range| (range.low, range.high)))?;
    let part = match pace {
        Pace::Drill | Pace::Turn => 1.0,
        Pace::Ream | Pace::Part => 0.5,
        Pace::Sand => 1.0 / 3.0,
        Pace::Thread => 0.25,
    };
    Some((low * part, high * part))
}

fn within_lathe(cutting_m_min: (f64, f64), dia: Length, bench: Option<&Bench>) -> Speed {
    let (low, high) = (
        spindle_speed(cutting_m_min.0, dia),
        spindle_speed(cutting_m_min.1, dia),
    );
    let mut speed = Speed {
        low_rev_min: low,
        high_rev_min: high,
        settings_rev_min: Vec::new(),
        cutting_m_min,
        dia,
        limited: None,
    };
    let Some(lathe) = bench.and_then(|bench| bench.lathe.as_ref()) else {
        return speed;
    };
    let (slowest, fastest) = (lathe.slowest_rev_min(), lathe.fastest_rev_min());
    speed.low_rev_min = low.clamp(slowest, fastest);
    speed.high_rev_min = high.clamp(slowest, fastest);
    speed.limited = if high < slowest {
        Some(SpeedLimit::TooFast)
    } else if low > fastest {
        Some(SpeedLimit::TooSlow)
    } else if high > fastest {
        Some(SpeedLimit::Capped)
    } else {
        None
    };
    let lathes = &lathe.speeds_rev_min;
    let within = |(from, to): &(f64, f64)| {
        let (from, to) = (from.max(speed.low_rev_min), to.min(speed.high_rev_min));
        (from <= to).then_some((from, to))
    };
    speed.settings_rev_min = lathes.iter().filter_map(within).collect();
    if speed.settings_rev_min.is_empty() {
        // Between two steps: the one below is safe.
        let below = lathes
            .iter()
            .map(|it| it.1)
            .filter(|to| *to <= speed.high_rev_min);
        let below = below.fold(slowest, f64::max);
        speed.settings_rev_min = vec![(below, below)];
        speed.low_rev_min = below;
        speed.high_rev_min = below;
    }
    speed
}
