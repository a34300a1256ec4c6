//! Limits, clearance and kind of an ISO 286 fit.

use super::{Answer, AnswerPage, SCHEMA_VERSION};
use quillet_geometry::{Length, Limits};
use quillet_standards::fit::{FitError, FitKind, SizedFit, ZoneLimits, drilled_hole};
use serde::Serialize;
use serde_json::Number;

/// Answers what is asked of a fit.
///
/// # Errors
///
/// Where the standard does not give a class at this size.
pub fn fit(asked: SizedFit) -> Result<Answer, FitError> {
    let SizedFit { size, fit } = asked;
    let found = fit.at(size)?;
    let mut page = AnswerPage::new(format!("{size} {fit}: {} fit", found.kind.word()));
    for (what, zone) in [("hole", found.hole), ("shaft", found.shaft)] {
        page.heading(format!("{what} {}", zone.zone));
        page.sourced("limits", zone.limits.to_string(), zone.source);
        page.sourced("from the size", deviations(zone), zone.source);
    }
    page.heading("together");
    match found.kind {
        FitKind::Clearance => page.row("clearance", span(found.clearance)),
        FitKind::Interference => page.row(
            "interference",
            span(Limits::new(-found.clearance.max(), -found.clearance.min())),
        ),
        FitKind::Transition => page.row(
            "between",
            format!(
                "{} of interference and {} of clearance",
                micrometres(-found.clearance.min()),
                micrometres(found.clearance.max())
            ),
        ),
    }
    if let Ok(drilled) = drilled_hole(size)
        && found.hole.limits.width() < drilled.by_grade.0.width()
    {
        page.sourced(
            "making the hole",
            format!(
                "a drill leaves about {}: ream or bore it",
                drilled.over_size
            ),
            drilled.source,
        );
    }
    let figures = FitReport {
        schema_version: SCHEMA_VERSION,
        size_mm: size.to_mm(),
        hole: SideReport::of(found.hole),
        shaft: SideReport::of(found.shaft),
        clearance_um: [um(found.clearance.min()), um(found.clearance.max())],
        kind: found.kind.word(),
    };
    Ok(Answer::new(page, &figures))
}

/// The limits of a fit; what ends in `um` is in micrometres.
#[derive(Serialize)]
struct FitReport {
    schema_version: u32,
    size_mm: f64,
    hole: SideReport,
    shaft: SideReport,
    clearance_um: [Number; 2],
    kind: &'static str,
}

#[derive(Serialize)]
struct SideReport {
    class: String,
    lower_um: Number,
    upper_um: Number,
}

impl SideReport {
    fn of(zone: ZoneLimits) -> Self {
        Self {
            class: zone.zone.to_string(),
            lower_um: um(zone.lower),
            upper_um: um(zone.upper),
        }
    }
}

/// A whole number where it is one: js deviations may end in a half.
fn um(length: Length) -> Number {
    let nm = length.nm();
    let whole = || Number::from(nm / 1000);
    match nm % 1000 {
        0 => whole(),
        _ => Number::from_f64(nm as f64 / 1000.0).unwrap_or_else(whole),
    }
}

fn micrometres(length: Length) -> String {
    format!("{} µm", um(length))
}

fn span(limits: Limits) -> String {
    format!("{} to {}", um(limits.min()), micrometres(limits.max()))
}

fn deviations(zone: ZoneLimits) -> String {
    let signed = |length: Length| {
        let sign = if length.is_positive() { "+" } else { "" };
        format!("{sign}{}", um(length))
    };
    format!("{} to {} µm", signed(zone.lower), signed(zone.upper))
}
