//! Spindle speeds.

use quillet_geometry::Length;
use quillet_model::{Bench, Material};
use quillet_standards::material::{Cutting as Row, Operation as Cutting, spindle_speed};

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
    /// The one number to set, so that a holding needs no changing of belts; none where the lathe
    /// is not known.
    pub set_rev_min: Option<f64>,
}

impl Speed {
    /// The speed in the middle of what the material asks for, as ratios go: 1000·√(v_low·v_high) /
    /// (π·d).
    pub(crate) fn middle_rev_min(&self) -> f64 {
        (self.low_rev_min * self.high_rev_min).sqrt()
    }

    /// Whether the lathe's number is one of those that serve.
    pub(crate) fn serves(&self, rev_min: f64) -> bool {
        let within = |(from, to): &(f64, f64)| *from <= rev_min && rev_min <= *to;
        self.settings_rev_min.iter().any(within)
    }

    /// The slowest of the lathe's that serves.
    pub(crate) fn slowest_rev_min(&self) -> Option<f64> {
        self.settings_rev_min.first().map(|it| it.0)
    }
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
pub enum SpeedClass {
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
    /// Single-point threading: at most a quarter of the turning speed (common practice, no
    /// published source); what the run-out leaves time for is less, mostly.
    Thread,
}

/// The spindle speeds for work on a diameter: n = 1000·v / (π·d), within what the lathe does.
///
/// No faster than practice goes on small work. The slowest of several materials decides. None where no cutting speed is known.
pub fn speed<'a>(
    pace: SpeedClass,
    dia: Length,
    materials: impl IntoIterator<Item = &'a Material>,
    bench: Option<&Bench>,
) -> Option<Speed> {
    let asked: Option<Vec<CuttingData>> = materials
        .into_iter()
        .map(|material| CuttingData::of(pace, material))
        .collect();
    let slowest = asked?.into_iter().reduce(CuttingData::slower)?;
    if !dia.is_positive() {
        return None;
    }
    Some(within_lathe(slowest, dia, bench))
}

/// What a material asks for.
#[derive(Clone, Copy)]
struct CuttingData {
    /// Low and high.
    cutting_m_min: (f64, f64),
    /// What practice goes up to on small work.
    most_rev_min: f64,
}

impl CuttingData {
    fn of(pace: SpeedClass, material: &Material) -> Option<CuttingData> {
        let row = |operation| material.kind.cutting(operation);
        let found = match pace {
            SpeedClass::Drill | SpeedClass::Ream => {
                row(Cutting::Drilling).or(row(Cutting::Turning))
            }
            _ => row(Cutting::Turning).or(row(Cutting::Drilling)),
        };
        let most = found.and_then(|row| row.most_rev_min());
        Some(CuttingData {
            cutting_m_min: cutting_speed(pace, material, found)?,
            most_rev_min: most.unwrap_or(f64::INFINITY),
        })
    }

    fn slower(self, other: CuttingData) -> CuttingData {
        let ((low, high), with) = (self.cutting_m_min, other.cutting_m_min);
        CuttingData {
            cutting_m_min: (low.min(with.0), high.min(with.1)),
            most_rev_min: self.most_rev_min.min(other.most_rev_min),
        }
    }
}

fn cutting_speed(pace: SpeedClass, material: &Material, row: Option<&Row>) -> Option<(f64, f64)> {
    let found = row.and_then(Row::speed_m_min);
    let (low, high) = material
        .speed_m_min
        .or(found.map(|range| (range.low, range.high)))?;
    let part = match pace {
        SpeedClass::Drill | SpeedClass::Turn => 1.0,
        SpeedClass::Ream | SpeedClass::Part => 0.5,
        SpeedClass::Sand => 1.0 / 3.0,
        SpeedClass::Thread => 0.25,
    };
    Some((low * part, high * part))
}

fn within_lathe(asked: CuttingData, dia: Length, bench: Option<&Bench>) -> Speed {
    let cutting_m_min = asked.cutting_m_min;
    let at = |m_min| spindle_speed(m_min, dia).min(asked.most_rev_min);
    let (low, high) = (at(cutting_m_min.0), at(cutting_m_min.1));
    let mut speed = Speed {
        low_rev_min: low,
        high_rev_min: high,
        settings_rev_min: Vec::new(),
        cutting_m_min,
        dia,
        limited: None,
        set_rev_min: None,
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
