//! `crumbling-thread`: a fine thread in wood or in a flaked casting.

use crate::{Findings, PartView, Rule, Run, Threshold};
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "crumbling-thread",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("crumbling-thread.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    for cut in &part.features {
        let Some((thread, _)) = cut.thread() else {
            continue;
        };
        let form = &thread.thread;
        let pitch = form.pitch();
        let crumbles = part.thread_materials(cut).into_iter().find_map(|material| {
            let wanted = view.length_limit(&RULE, material.kind.finest_pitch(form.major())?);
            (pitch < wanted).then_some((material, wanted))
        });
        let Some((material, wanted)) = crumbles else {
            continue;
        };
        let (from, to) = cut.stations(part.length);
        let finding = RULE
            .at(
                cut.span,
                text!("a pitch of {} in {} ({}); {} or more holds there", pitch, material.name, material.kind.kind(), wanted),
            )
            .label(thread.designation.span, text!("{} here", thread.thread))
            .hint("cut it in a sleeve of resin or metal glued into the blank, or take a coarser thread");
        findings.push_at(finding, from, to);
    }
}
