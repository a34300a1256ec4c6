//! `finish-closes-fit`: a coat of finish that takes up a plain joint's clearance.

use super::fitted::FitContact;
use crate::{Findings, JointView, Rule, Run, Threshold, spots, words};
use quillet_geometry::Length;
use quillet_model::{Limits, SurfacePoint};
use quillet_standards::material::Family;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "finish-closes-fit",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("finish-closes-fit.md"),
    run: Run::Joint(run),
};

/// The coat that wood gets; other materials are polished bare. Common practice, no published
/// source.
const COAT: Length = Length::from_nm(50_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    if !matches!(view.joint.verb, Verb::Slip | Verb::Close) {
        return;
    }
    let Some(fitted) = FitContact::of(view) else {
        return;
    };
    let spare = fitted.clearance();
    let sides = [&fitted.at.male, &fitted.at.female];
    let coats = sides.map(|spot| coat(view, spot));
    let taken: Length = coats.into_iter().map(Length::twice).sum();
    if spare.is_negative() || taken <= spare {
        return;
    }
    let coated = sides.into_iter().zip(coats).filter(|it| it.1.is_positive());
    let on = |(spot, coat): (&SurfacePoint, Length)| {
        text!("{} on {}", coat, view.pen.pen.parts[spot.part].name.text)
    };
    let message = text!(
        "{} of clearance is drawn, and a coat of {} takes {} of it",
        spare,
        words::list(&coated.map(on).collect::<Vec<_>>()),
        taken
    );
    findings.push(
        RULE.at(view.joint.head, message)
            .label(spots::span(view.pen.pen, &fitted.at.male), "what goes in")
            .label(
                spots::span(view.pen.pen, &fitted.at.female),
                "what it goes into",
            )
            .hint("leave the coat's thickness more, or mask the joint before finishing"),
    );
}

/// The coat on a surface: on wood, and on whatever part sets this rule's limit for itself, as thick
/// as the nearest limit says.
fn coat(view: &JointView<'_>, spot: &SurfacePoint) -> Length {
    let (pen, design) = (view.pen.pen, view.pen.design);
    let part = &pen.parts[spot.part];
    // A coat that is written keeps the written sizes, and joints are masked.
    if part.coat().is_some() {
        return Length::ZERO;
    }
    let material = part.material_in(Length::mm(spot.station_mm), Length::mm(spot.radius_mm));
    let wood = material.is_some_and(|it| it.kind.family() == Family::Wood);
    if !wood && part.limits.get(RULE.code).is_none() {
        return Length::ZERO;
    }
    let bench = view.pen.bench.map(|bench| &bench.limits);
    let near = [&view.joint.limits, &part.limits, &pen.limits];
    let blocks = near.into_iter().chain(bench).chain([&design.limits]);
    let written = Limits::nearest(RULE.code, blocks).and_then(|line| line.value.as_length());
    written.unwrap_or(COAT)
}
