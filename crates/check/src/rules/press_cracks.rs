//! `press-cracks`: more interference than the part around it bears.

use super::fitted::FitContact;
use crate::propose::{self, Proposal};
use crate::{Findings, JointView, Rule, Run, Threshold, spots, words};
use quillet_geometry::Length;
use quillet_model::{FitRequest, HeldBy, SurfacePoint};
use quillet_standards::material::Family;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Edit, Finding, Severity, Size, SizedText, Span, text};

pub(crate) static RULE: Rule = Rule {
    code: "press-cracks",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("press-cracks.md"),
    run: Run::Joint(run),
};

/// The strain that resin bears for years, and how much warmer a pen may come to be than when it
/// was pressed; common practice, no published source.
const STRAIN: f64 = 0.003;
const WARMER_K: f64 = 30.0;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    if matches!(view.joint.verb, Verb::Close | Verb::Post) {
        snap(view).into_iter().for_each(|it| findings.push(it));
    }
    if view.joint.verb != Verb::Press {
        return;
    }
    let Some(fitted) = FitContact::of(view) else {
        return;
    };
    let most = most_mm(view, &fitted);
    let around = material(view, &fitted.at.female);
    let Some((around, name)) = around.filter(|(kind, _)| kind.family() != Family::Metal) else {
        return;
    };
    let expands = |kind: &quillet_standards::material::Material| {
        kind.expansion_per_million_k()
            .map_or(0.0, |(value, _)| value * 1e-6)
    };
    let inside = material(view, &fitted.at.male);
    let apart = inside.map_or(0.0, |(kind, _)| (expands(kind) - expands(around)).max(0.0));
    let strain = most / fitted.hole.to_mm() + apart * WARMER_K;
    let bears = view.number_limit(&RULE, STRAIN);
    if strain <= bears {
        return;
    }
    let warm = match apart > 0.0 {
        true => text!(
            ", {} % of it by warming {} K",
            format!("{:.2}", apart * WARMER_K * 100.0),
            format!("{:.0}", WARMER_K)
        ),
        false => SizedText::default(),
    };
    let [strained, borne] = words::told_apart(strain * 100.0, bears * 100.0, 2);
    let message = text!(
        "{} of interference strains {} by {} %{}; {} bears {} %",
        Size::Rounded(Length::mm(most.max(0.0)), 3),
        words::dia(fitted.hole),
        strained,
        warm,
        name,
        borne
    );
    let pen = view.pen.pen;
    let fits = Length::mm((bears - apart * WARMER_K).max(0.0) * fitted.hole.to_mm());
    let finding = RULE
        .at(view.joint.head, message)
        .label(spots::span(pen, &fitted.at.female), "what may crack")
        .hint(text!(
            "an interference of {} or less bears it; or glue it with a gap",
            fits
        ));
    findings.push(propose::with(finding, borne_by(view, &fitted, fits)));
}

/// What is asked for and what is drawn, each where it is more than what bears, brought down to it.
fn borne_by(view: &JointView<'_>, fitted: &FitContact, fits: Length) -> Option<Proposal> {
    let design = view.pen.design;
    let asked = match view.joint.asks {
        Some((FitRequest::Interference(size), span)) if size > fits => {
            let word = design.text(span).rfind(' ')? + 1;
            let span = Span::new(span.file, span.start as usize + word, span.end as usize);
            propose::literal(design, span)?;
            let less = design.units_at(span).fine_down(fits);
            let title = text!("press it by {}", Size::Written(less));
            less.is_positive()
                .then(|| (title, vec![Edit::new(span, Size::Written(less))]))
        }
        _ => None,
    };
    let male = &fitted.at.male;
    let part = view.pen.pen.parts.get(male.part)?;
    let most = fitted.hole + fits;
    let drawn = (fitted.shaft > most)
        .then(|| propose::slimmer(design, part, male.origin, most))
        .flatten();
    match (asked, drawn) {
        (Some(asked), Some(drawn)) => Some(propose::both(asked, drawn)),
        (one, other) => one.or(other),
    }
}

/// The most interference that is drawn or asked for, mm.
fn most_mm(view: &JointView<'_>, fitted: &FitContact) -> f64 {
    let drawn = (-fitted.clearance()).to_mm();
    match &view.joint.asks {
        Some((FitRequest::Fit(fit), _)) => {
            let limits = fit.at(fitted.hole);
            limits.map_or(drawn, |limits| drawn.max(-limits.clearance.min().to_mm()))
        }
        Some((FitRequest::Interference(size), _)) => drawn.max(size.to_mm()),
        _ => drawn,
    }
}

/// A snap that strains what springs more than its material bears day by day.
fn snap(view: &JointView<'_>) -> Option<Finding> {
    let rest = view.at_rest().filter(|rest| rest.verdict.is_sure())?;
    let sprung = rest.verdict.held_by.iter().find_map(|it| match it {
        HeldBy::Snap(it) => Some(it),
        _ => None,
    })?;
    let part = view.pen.pen.parts.get(sprung.strained)?;
    let material = &part.blanks().first()?.stock.material;
    let limit = view.limit(&RULE).is_some();
    let bears = match limit {
        true => view.number_limit(&RULE, STRAIN),
        false => material.strain_percent? / 100.0,
    };
    let strain = sprung.strain.filter(|it| *it > bears)?;
    let [strained, borne] = words::told_apart(strain * 100.0, bears * 100.0, 2);
    let message = text!(
        "{} is strained by {} % at each closing; {} bears {} %",
        part.name.text,
        strained,
        material.title_or_name(),
        borne
    );
    Some(RULE.at(view.joint.head, message).hint(
        "let the ridge overlap less, slit the ring into longer fingers, or take a material that bears more",
    ))
}

fn material<'a>(
    view: &JointView<'a>,
    spot: &SurfacePoint,
) -> Option<(&'static quillet_standards::material::Material, &'a str)> {
    let part = &view.pen.pen.parts[spot.part];
    let material = part.material_in(Length::mm(spot.station_mm), Length::mm(spot.radius_mm))?;
    Some((material.kind, &material.name))
}
