//! The figures of a thread for programs.

use super::ThreadFigures;
use crate::report::SCHEMA_VERSION;
use quillet_geometry::Limits;
use serde::Serialize;

/// All figures of a thread.
#[derive(Serialize)]
pub(super) struct ThreadReport {
    schema_version: u32,
    designation: String,
    major_mm: f64,
    pitch_mm: f64,
    starts: u32,
    lead_mm: f64,
    lead_angle_deg: f64,
    pitch_diameter_mm: f64,
    minor_mm: f64,
    root_mm: f64,
    external: ExternalReport,
    internal: InternalReport,
    limits_from: &'static str,
    tap_drill: TapDrill,
    tenon_mm: [f64; 2],
    wires: Wires,
}

#[derive(Serialize)]
struct ExternalReport {
    class: String,
    major_mm: [f64; 2],
    pitch_mm: [f64; 2],
}

#[derive(Serialize)]
struct InternalReport {
    class: String,
    minor_mm: [f64; 2],
    pitch_mm: [f64; 2],
}

#[derive(Serialize)]
struct TapDrill {
    /// Its name, where it is one that is sold.
    drill: Option<String>,
    diameter_mm: f64,
    percent_3h4: f64,
    percent_5h8: f64,
    why: String,
    source: Option<&'static str>,
    standard_mm: f64,
    standard_source: &'static str,
}

#[derive(Serialize)]
struct Wires {
    best_mm: f64,
    wire_mm: f64,
    over_mm: f64,
}

impl ThreadReport {
    pub(super) fn of(figures: &ThreadFigures) -> Self {
        let (form, outside, inside) = (&figures.form, &figures.outside, &figures.inside);
        let (hole, wires) = (figures.hole(), &figures.wires);
        Self {
            schema_version: SCHEMA_VERSION,
            designation: form.to_string(),
            major_mm: form.major().to_mm(),
            pitch_mm: form.pitch_mm(),
            starts: form.starts(),
            lead_mm: form.lead_mm(),
            lead_angle_deg: form.lead_angle().to_deg(),
            pitch_diameter_mm: form.pitch_diameter().to_mm(),
            minor_mm: form.minor_diameter().to_mm(),
            root_mm: form.root_diameter().to_mm(),
            external: ExternalReport {
                class: outside.class.to_string(),
                major_mm: pair(outside.major),
                pitch_mm: pair(outside.pitch),
            },
            internal: InternalReport {
                class: inside.class.to_string(),
                minor_mm: pair(inside.minor),
                pitch_mm: pair(inside.pitch),
            },
            limits_from: figures.limits_from().word(),
            tap_drill: TapDrill {
                drill: hole.drill.map(ToString::to_string),
                diameter_mm: hole.diameter.to_mm(),
                percent_3h4: rounded(hole.percent.of_3h4, 1e4),
                percent_5h8: rounded(hole.percent.of_5h8, 1e4),
                why: hole.why,
                source: hole.source.map(|source| source.text()),
                standard_mm: figures.tap.diameter.to_mm(),
                standard_source: figures.tap.source.text(),
            },
            tenon_mm: pair(outside.major),
            wires: Wires {
                best_mm: wires.best.to_mm(),
                wire_mm: wires.wire.to_mm(),
                over_mm: rounded(wires.over_mm, 1e6),
            },
        }
    }
}

fn pair(limits: Limits) -> [f64; 2] {
    [limits.min().to_mm(), limits.max().to_mm()]
}

fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}
