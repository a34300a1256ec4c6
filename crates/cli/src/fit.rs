//! `quillet fit`: limits, clearance and kind of an ISO 286 fit.

use std::process::ExitCode;

use quillet_geometry::{Length, Limits};
use quillet_standards::fit::{FitKind, SizedFit, ZoneLimits, drilled_hole};
use serde_json::json;

use crate::answer::{Answer, Page, Show, print};

/// What `quillet fit` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// Size and fit: "10 H7/g6"
    #[arg(required = true)]
    fit: Vec<String>,
    #[command(flatten)]
    show: Show,
}

/// Answers the question on the terminal.
pub(crate) fn run(args: &Args) -> ExitCode {
    print(answer(&args.fit.join(" ")), &args.show)
}

fn answer(text: &str) -> Result<Answer, String> {
    let SizedFit { size, fit } = text.parse().map_err(|fault| format!("{fault}"))?;
    let found = fit.at(size).map_err(|fault| format!("{fault}"))?;
    let mut page = Page::new(format!("{size} {fit}: {} fit", found.kind.word()));
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
    let side = |zone: ZoneLimits| {
        json!({
            "class": zone.zone.to_string(),
            "lower_um": um(zone.lower),
            "upper_um": um(zone.upper),
        })
    };
    let json = json!({
        "size_mm": size.to_mm(),
        "hole": side(found.hole),
        "shaft": side(found.shaft),
        "clearance_um": [um(found.clearance.min()), um(found.clearance.max())],
        "kind": found.kind.word(),
    });
    Ok(Answer { page, json })
}

/// A whole number where it is one: js deviations may end in a half.
fn um(length: Length) -> serde_json::Value {
    if length.nm() % 1000 == 0 {
        json!(length.nm() / 1000)
    } else {
        json!(length.nm() as f64 / 1000.0)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn deviations_leave_the_program_as_the_standard_prints_them() {
        for row in quillet_reference::rows("iso286_limits.csv") {
            let (class, hole) = (row.text("class"), row.text("kind") == "hole");
            let size = row.text("up_to_mm");
            let asked = if hole {
                format!("{size} {class}/h6")
            } else {
                format!("{size} H7/{class}")
            };
            let found = answer(&asked)
                .unwrap_or_else(|fault| panic!("{row}: {fault}"))
                .json;
            let side = &found[if hole { "hole" } else { "shaft" }];
            assert_eq!(side["class"], class, "{row}");
            assert_eq!(
                side["lower_um"].as_f64(),
                row.optional("rule_lower_um"),
                "{row}"
            );
            assert_eq!(
                side["upper_um"].as_f64(),
                row.optional("rule_upper_um"),
                "{row}"
            );
        }
    }

    #[test]
    fn a_fit_is_told_by_its_kind() {
        for (asked, wanted) in [
            ("10 H7/g6", "clearance        5 to 29 µm"),
            ("10 H7/k6", "10 µm of interference and 14 µm of clearance"),
            ("10 H7/p6", "interference     0 to 24 µm"),
            ("10 H7/g6", "ream or bore it"),
        ] {
            let text = answer(asked)
                .unwrap_or_else(|fault| panic!("{fault}"))
                .page
                .text(true);
            assert!(text.contains(wanted), "{wanted}\n{text}");
        }
        assert!(answer("10").is_err_and(|fault| fault.contains("as in 10 H7/g6")));
    }
}
