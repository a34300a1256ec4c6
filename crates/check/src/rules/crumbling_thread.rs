//! `crumbling-thread`: a fine thread in wood or in a flaked casting.

use crate::{Findings, PartView, Rule, Run, Threshold};
use quillet_geometry::Length;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "crumbling-thread",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("crumbling-thread.md"),
    run: Run::Part(run),
};

/// Common practice, no published source.
const USUAL: Length = Length::from_nm(1_000_000);

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let wanted = view.length_limit(&RULE, USUAL);
    for cut in &part.features {
        let Some((thread, _)) = cut.thread() else {
            continue;
        };
        let (from, to) = cut.stations(part.length);
        let Some(material) = part.material_at(from + (to - from).half()) else {
            continue;
        };
        let pitch = thread.thread.pitch();
        if !material.kind.crumbles() || pitch >= wanted {
            continue;
        }
        let finding = RULE
            .at(
                cut.span,
                format!(
                    "a pitch of {pitch} in {} ({}); {wanted} or more holds there",
                    material.name,
                    material.kind.kind()
                ),
            )
            .label(thread.designation.span, format!("{} here", thread.thread))
            .hint("cut it in a sleeve of resin or metal glued into the blank, or take a coarser thread");
        findings.push_at(finding, from, to);
    }
}
