//! `broken-through`: a cut comes out where solid was meant.

use crate::{Findings, PartView, Rule, Run, propose, words};
use quillet_geometry::{Chain, Length};
use quillet_model::{Cut, End, Feature, Origin, Part};
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "broken-through",
    severity: Severity::Error,
    limit: None,
    page: include_str!("broken-through.md"),
    run: Run::Part(run),
};

/// What a cure leaves at the least; other rules ask for more where more is wanted.
const LEFT: Length = Length::from_nm(1_000_000);

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let mut reported: Vec<Origin> = Vec::new();
    walls(view, &mut reported, findings);
    points_past_the_end(view.part, &reported, findings);
    points_that_meet(view, findings);
}

/// Whether it is said already of holes beside the axis that the part has no room for them.
fn has_no_room(view: &PartView<'_>, wall: &crate::Wall) -> bool {
    let holes = wall.beside().and_then(|it| view.part.circle(it));
    let said = |span| {
        let mut found = view.design.findings.iter();
        found.any(|it| it.rule == "out-of-range" && it.span == span)
    };
    holes.is_some_and(|it| said(it.on_span))
}

/// Walls of nothing or less, the worst for each inner feature.
fn walls(view: &PartView<'_>, reported: &mut Vec<Origin>, findings: &mut Findings) {
    let part = view.part;
    let mut worst: Vec<&crate::Wall> = Vec::new();
    let gone = |it: &&crate::Wall| !it.least.is_positive() && !has_no_room(view, it);
    for wall in view.walls().iter().filter(gone) {
        match worst
            .iter_mut()
            .find(|known| known.inner.feature() == wall.inner.feature())
        {
            Some(known) if known.least <= wall.least => {}
            Some(known) => *known = wall,
            None => worst.push(wall),
        }
    }
    for wall in worst {
        reported.push(wall.inner);
        let by = match wall.least.is_zero() {
            true => "leaves no wall".into(),
            false => text!("comes out by {}", Size::Rounded(-wall.least, 2)),
        };
        let finding = RULE
            .at(
                wall.inner_span(part),
                text!(
                    "{} {} through {}, {} from the {}; solid is wanted there",
                    wall.inner_words(part),
                    by,
                    wall.outer_words(part),
                    wall.at,
                    part.end_name(End::First)
                ),
            )
            .label(
                wall.outer_span(part),
                text!("{} lies over it", wall.outer_words(part)),
            )
            .hint("make the hole smaller or shorter there, or the outside larger");
        let finding = propose::with(finding, propose::wall(view, wall, LEFT));
        findings.push_at(finding, wall.from, wall.to);
    }
}

/// A drill's cone that leaves the part at its far end, where `through` is not said.
fn points_past_the_end(part: &Part, reported: &[Origin], findings: &mut Findings) {
    let Some(profiles) = &part.profiles else {
        return;
    };
    for (index, feature) in part.features.with_ids() {
        let Cut::Drill { dia, point, .. } = &feature.cut else {
            continue;
        };
        let known = reported
            .iter()
            .any(|origin| origin.feature() == Some(index));
        let cone = quillet_standards::drill::point_length(*dia, *point);
        let apex = feature.to + cone;
        if feature.through || known || feature.to >= part.length || apex <= part.length {
            continue;
        }
        let far = part.station(feature.end.other(), Length::ZERO).to_mm();
        let opened_wider = profiles.root.inner.iter().any(|bore| {
            open_at(bore, far).is_some_and(|radius| radius > cone_radius(feature, part))
        });
        if opened_wider {
            continue;
        }
        let finding = RULE
            .at(
                feature.span,
                text!(
                    "the point of the {} reaches {} from the {}, past the part's {}",
                    words::sized(feature),
                    Size::Rounded(apex, 2),
                    part.end_name(feature.end),
                    part.length
                ),
            )
            .label(part.length_span, "the part's length")
            .hint("drill less deep, or write through");
        findings.push(finding);
    }
}

/// The radius at which a bore comes out at a station.
fn open_at(bore: &Chain, z: f64) -> Option<f64> {
    [bore.start(), bore.end()]
        .into_iter()
        .find(|place| (place.z - z).abs() < 1e-6)
        .map(|p| p.r)
}

/// The radius of a drill's cone where it crosses the far end.
fn cone_radius(feature: &Feature, part: &Part) -> f64 {
    let Cut::Drill { dia, point, .. } = &feature.cut else {
        return 0.0;
    };
    let past = (part.length - feature.to).to_mm();
    (dia.to_mm() / 2.0 - point.cone_radius_mm(past)).max(0.0) + 1e-6
}

/// Two drills from opposite ends whose depths stop short of each other and whose points meet.
fn points_that_meet(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let drills: Vec<(&Feature, Length)> = part
        .features
        .iter()
        .filter(|feature| !feature.through)
        .filter_map(|feature| match &feature.cut {
            Cut::Drill { dia, point, .. } => Some((
                feature,
                quillet_standards::drill::point_length(*dia, *point),
            )),
            _ => None,
        })
        .collect();
    let deepest = |end: End| {
        drills
            .iter()
            .filter(|(it, _)| it.end == end)
            .max_by_key(|(it, cone)| it.to + *cone)
    };
    let (Some((first, first_cone)), Some((second, second_cone))) =
        (deepest(End::First), deepest(End::Second))
    else {
        return;
    };
    let between = part.length - first.to - second.to;
    let left = between - *first_cone - *second_cone;
    let joined = part.features.iter().any(|it| it.is_inside() && it.through);
    if joined || !between.is_positive() || left.is_positive() {
        return;
    }
    let finding = RULE
        .at(
            second.span,
            text!("the points of the {} and the {} run into each other: their depths leave {} between, the points take {}", words::sized(first), words::sized(second), between, Size::Rounded(*first_cone + *second_cone, 2)),
        )
        .label(first.span, "drilled from the other end")
        .hint("drill one of them less deep, or write through where they are to meet");
    let units = view.design.units_at(part.span);
    let less = |cut: &Feature| {
        let to = units.down(cut.to + left - LEFT);
        propose::reach(view.design, part, cut, to)
    };
    let shallower = [*second, *first].into_iter().filter_map(less);
    findings.push(propose::with(finding, shallower));
}
