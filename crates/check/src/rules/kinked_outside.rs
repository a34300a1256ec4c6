//! `kinked-outside`: the outside bends a little where it may have been meant to flow.

use crate::propose::{self, Proposal};
use crate::{Findings, PartView, Rule, Run, Threshold};
use quillet_geometry::{Angle, Length, Shape};
use quillet_model::{Origin, Part, StationId};
use quillet_syntax::{Edit, Severity, text};

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
        let finding = propose::with(finding, smooth(part, before, after));
        findings.push_at(finding, at, at);
    }
}

/// The surface made to flow through the station, and then on to the next.
fn smooth(part: &Part, before: StationId, after: StationId) -> Vec<Proposal> {
    let write = |index: StationId| {
        let station = part.stations.get(index)?;
        (station.shape == Shape::Straight && station.edge.is_none())
            .then(|| Edit::new(station.dia_span.after(), " smooth"))
    };
    let here = write(before);
    let on = write(after);
    let both: Vec<Edit> = here.clone().into_iter().chain(on).collect();
    let here: Vec<Edit> = here.into_iter().collect();
    let mut proposals = vec![("write smooth here".into(), here)];
    proposals.push(("write smooth here and at the next station".into(), both));
    proposals.retain(|(_, edits): &Proposal| !edits.is_empty());
    proposals
}
