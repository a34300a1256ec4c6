//! `snaps-at-joint`: a threaded tenon too slender for the bending it will see.

use crate::{Findings, PartView, Rule, Run, Threshold, Wall};
use quillet_model::{Cut, End};
use quillet_syntax::Severity;
use quillet_syntax::ast::Side;
use std::f64::consts::PI;

pub(crate) static RULE: Rule = Rule {
    code: "snaps-at-joint",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("snaps-at-joint.md"),
    run: Run::Part(run),
};

/// A hard lean on the pen, at the joint; common practice, no published source.
const MOMENT_N_MM: f64 = 500.0;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    if part.bought {
        return;
    }
    for end in [End::First, End::Second] {
        let worst = view
            .walls()
            .iter()
            .filter(|wall| is_root_or_relief(view, wall, end))
            .max_by(|a, b| stress_mpa(a).total_cmp(&stress_mpa(b)));
        let Some(wall) = worst else { continue };
        let Some(material) = part.material_at(wall.at) else {
            continue;
        };
        let Some((bears, _)) = material.kind.bending_mpa() else {
            continue;
        };
        let (bears, stress) = (view.number_limit(&RULE, bears), stress_mpa(wall));
        if stress <= bears || !wall.least.is_positive() {
            continue;
        }
        let finding = RULE
            .at(
                wall.outer_span(part),
                format!(
                    "{} over {} would bend at {stress:.0} MPa under {MOMENT_N_MM:.0} N·mm; {} bears {bears:.0} MPa",
                    wall.outer_words(part),
                    wall.inner_words(part),
                    material.name,
                ),
            )
            .label(wall.inner_span(part), "the hole in it")
            .hint("make the hole smaller under it, or the thread larger");
        findings.push_at(finding, wall.from, wall.to);
    }
}

fn is_root_or_relief(view: &PartView<'_>, wall: &Wall, end: End) -> bool {
    let Some(cut) = wall
        .outer
        .feature()
        .and_then(|at| view.part.features.get(at))
    else {
        return false;
    };
    let slender = matches!(
        cut.cut,
        Cut::Relief { .. }
            | Cut::Thread {
                side: Side::Outside,
                ..
            }
    );
    slender && cut.end == end
}

/// 32·M·D/(π(D⁴ − d⁴)), the bending of a tube (any handbook of strength of materials).
fn stress_mpa(wall: &Wall) -> f64 {
    let (outer, inner) = (wall.outer_dia.to_mm(), wall.inner_dia.to_mm());
    32.0 * MOMENT_N_MM * outer / (PI * (outer.powi(4) - inner.powi(4)))
}
