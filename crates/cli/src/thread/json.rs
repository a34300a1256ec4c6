//! The figures of a thread for programs.

use quillet_geometry::Limits;
use serde_json::json;

use super::Question;

/// One object with all figures; lengths in mm, angles in degrees.
pub(super) fn json(question: &Question) -> serde_json::Value {
    let (form, outside, inside) = (&question.form, &question.outside, &question.inside);
    let hole = question.hole();
    json!({
        "designation": form.to_string(),
        "major_mm": form.major().to_mm(),
        "pitch_mm": form.pitch_mm(),
        "starts": form.starts(),
        "lead_mm": form.lead_mm(),
        "lead_angle_deg": form.lead_angle().to_deg(),
        "pitch_diameter_mm": form.pitch_diameter().to_mm(),
        "minor_mm": form.minor_diameter().to_mm(),
        "root_mm": form.root_diameter().to_mm(),
        "external": {
            "class": outside.class.to_string(),
            "major_mm": pair(outside.major),
            "pitch_mm": pair(outside.pitch),
        },
        "internal": {
            "class": inside.class.to_string(),
            "minor_mm": pair(inside.minor),
            "pitch_mm": pair(inside.pitch),
        },
        "limits_from": question.limits_from().word(),
        "tap_drill": {
            "drill": hole.drill.map(ToString::to_string),
            "diameter_mm": hole.diameter.to_mm(),
            "percent_3h4": rounded(hole.percent.of_3h4, 1e4),
            "percent_5h8": rounded(hole.percent.of_5h8, 1e4),
            "why": hole.why,
            "source": hole.source.map(|source| source.text()),
            "standard_mm": question.tap.diameter.to_mm(),
            "standard_source": question.tap.source.text(),
        },
        "tenon_mm": pair(outside.major),
        "wires": {
            "best_mm": question.wires.best.to_mm(),
            "wire_mm": question.wires.wire.to_mm(),
            "over_mm": rounded(question.wires.over_mm, 1e6),
        },
    })
}

fn pair(limits: Limits) -> [f64; 2] {
    [limits.min().to_mm(), limits.max().to_mm()]
}

fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}
