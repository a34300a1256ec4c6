//! `finish-closes-fit`: a coat of finish that takes up a plain joint's clearance.

use super::fitted::Fitted;
use crate::{Findings, JointView, Rule, Run, Threshold, spots};
use quillet_geometry::Length;
use quillet_model::Spot;
use quillet_standards::material::Family;
use quillet_syntax::Severity;
use quillet_syntax::ast::Verb;

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
    let Some(fitted) = Fitted::of(view) else {
        return;
    };
    let spare = fitted.clearance();
    let wooden = |spot: &Spot| {
        let material = view.pen.pen.parts[spot.part].material_at(Length::mm(spot.station_mm));
        material.is_some_and(|it| it.kind.family() == Family::Wood)
    };
    let said = view.limit(&RULE).and_then(|line| line.value.as_length());
    let sides = [&fitted.at.male, &fitted.at.female];
    let coated = sides.into_iter().filter(|spot| wooden(spot)).count() as i64;
    let coat = said.unwrap_or(COAT);
    let taken = coat.twice() * coated;
    if coated == 0 || spare.is_negative() || taken <= spare {
        return;
    }
    let message = format!(
        "{spare} of clearance is drawn, and a coat of {coat} on the wood takes {taken} of it"
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
