//! `kinked-outside`: the outside bends a little where it may have been meant to flow.

use crate::{Findings, PartView, Rule, Run, Threshold};
use quillet_geometry::{Angle, Length};
use quillet_model::Origin;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "kinked-outside",
    severity: Severity::Note,
    limit: Some(Threshold::Angle),
    page: include_str!("kinked-outside.md"),
    run: Run::Part(run),
};

/// Common practice, no published source.
const LEAST_DEG: f64 = 1.0;
const MOST_DEG: f64 = 12.0;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    let least = view
        .limit(&RULE)
        .and_then(|line| line.value.as_angle())
        .map_or(LEAST_DEG, Angle::to_deg);
    for kink in profiles.crest.outer.kinks() {
        let (Origin::Outside(before), Origin::Outside(after)) =
            (profiles.origin(kink.before), profiles.origin(kink.after))
        else {
            continue;
        };
        let turn = kink.turn_deg.abs();
        let Some(station) = part.stations.get(before) else {
            continue;
        };
        if before == after || turn < least || turn > MOST_DEG {
            continue;
        }
        let at = Length::mm(kink.z_mm);
        let finding = RULE
            .at(
                station.span,
                text!(
                    "the outside bends by {}° here; a line this faint is felt and seen",
                    format!("{:.1}", turn)
                ),
            )
            .hint("write smooth at this station and the next, or round it where the edge is meant");
        findings.push_at(finding, at, at);
    }
}
