//! `trapped-air`: a blind joint whose air has nowhere to go.

use super::fitted::FitContact;
use crate::{Findings, JointView, Rule, Run, spots, words};
use quillet_geometry::Length;
use quillet_model::Part;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};
use std::f64::consts::PI;

pub(crate) static RULE: Rule = Rule {
    code: "trapped-air",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("trapped-air.md"),
    run: Run::Joint(run),
};

/// Closer than this, on diameter, air does not escape: glue fills a gap, oil a slip; common
/// practice, no published source.
const GLUED: Length = Length::from_nm(200_000);
const SLIPPED: Length = Length::from_nm(30_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let tight = match view.joint.verb {
        Verb::Press => Length::MAX,
        Verb::Glue => GLUED,
        Verb::Slip => SLIPPED,
        _ => return,
    };
    let (Some(rest), Some(fitted)) = (view.at_rest(), FitContact::of(view)) else {
        return;
    };
    if fitted.clearance() > tight || open(view.male) || open(view.female) {
        return;
    }
    let swept_ml = PI / 4.0 * fitted.hole.to_mm().powi(2) * rest.goes_in_mm.max(0.0) / 1000.0;
    let message = text!(
        "{} closes {} ({}) with {} ml of air before it and no way out",
        view.male_name(),
        view.female_name(),
        words::dia(fitted.hole),
        format!("{:.2}", swept_ml)
    );
    findings.push(
        RULE.at(view.joint.head, message)
            .label(
                spots::span(view.pen.pen, &fitted.at.female),
                "the blind hole",
            )
            .hint(text!(
                "drill a vent of {}, or file a flat along what goes in",
                Length::mm(1.0)
            )),
    );
}

/// Whether air passes right through a part.
fn open(part: &Part) -> bool {
    let Some(profiles) = &part.profiles else {
        return true;
    };
    let vents = |(_, cut): &(_, quillet_geometry::side::SideCut)| {
        !matches!(cut.floor, quillet_geometry::side::Floor::Plane(_))
    };
    if profiles.not_round.openings.iter().any(vents) {
        return true;
    }
    let length = part.length.to_mm();
    profiles.crest.inner.iter().any(|bore| {
        let through = bore.start().z < 1e-6 && bore.end().z > length - 1e-6;
        let least = bore.segments().iter().map(|it| it.curve.bounds().min.r);
        through && least.fold(f64::INFINITY, f64::min) > 1e-6
    })
}
