//! `out-of-proportion`: a size that is many times what stands beside it.

mod cuts;
mod scale;

use crate::{Findings, PartView, PenView, Rule, Run, Threshold, words};
use quillet_geometry::Length;
use quillet_model::{Configured, Design, Part, Station, StationId};
use quillet_syntax::{Finding, Severity, Size, text};
use scale::{ScaleMistake, number_of};

pub(crate) static RULE: Rule = Rule {
    code: "out-of-proportion",
    severity: Severity::Error,
    limit: Some(Threshold::Number),
    page: include_str!("out-of-proportion.md"),
    run: Run::PartAndPen(run, within_pen),
};

/// So many times what stands beside it no size of a pen is: a decimal point lost makes it ten
/// times, the wrong unit 25.4 (common practice, no published source).
const TIMES: f64 = 3.0;
/// What is meant lies so near to what stands beside it, as many times more or less.
const NEAR: f64 = 1.5;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let (part, times) = (view.part, view.number_limit(&RULE, TIMES));
    for (index, here) in part.stations.with_ids() {
        if let Some(finding) = station(view.design, part, (index, here), times) {
            findings.push(finding);
        }
    }
    for cut in &part.features {
        if let Some(finding) = cuts::one(view.design, part, cut, times) {
            findings.push(finding);
        }
    }
}

fn within_pen(view: &PenView<'_>, findings: &mut Findings) {
    arms(view, findings);
    throats(view, findings);
}

/// Holes that what has to pass is many times as wide as: told of the part that has the hole.
fn throats(view: &PenView<'_>, findings: &mut Findings) {
    let before = findings.about.part.take();
    for joint in view.joints() {
        let times = joint.number_limit(&RULE, TIMES);
        if let Some((part, finding)) = cuts::throat(&joint, times) {
            findings.about.part = Some(part);
            findings.push(finding);
        }
    }
    findings.about.part = before;
}

/// Clips whose arm is longer than the pen it lies along.
fn arms(view: &PenView<'_>, findings: &mut Findings) {
    let assembly = &view.pen.assembly;
    let closed = assembly.configuration(Configured::Capped);
    let closed = closed.or_else(|| assembly.configuration(Configured::Uncapped));
    let Some(pen) = closed.and_then(|it| it.length_mm).map(Length::mm) else {
        return;
    };
    let arms = view.pen.parts.iter().filter_map(|part| part.bought()?.arm);
    for (arm, span) in arms.filter(|(arm, _)| *arm > pen) {
        let message = text!(
            "an arm of {} on a pen of {}",
            Size::Rounded(arm, 2),
            Size::Rounded(pen, 2)
        );
        let meant = ScaleMistake {
            least: Length::ZERO,
            most: pen,
        };
        findings.push(meant.offered(view.design, span, arm, RULE.at(span, message)));
    }
}

/// The part's own size: its widest station but for what is out of proportion itself, else its stock.
fn outside(part: &Part) -> Option<Length> {
    let stock = part.blanks().iter().map(|piece| piece.stock.size).max();
    let station = part.stations.iter().map(widest).max();
    stock.into_iter().chain(station).min()
}

/// A station many times as wide, or as narrow, as those on both sides.
fn station(
    design: &Design,
    part: &Part,
    (index, here): (StationId, &Station),
    times: f64,
) -> Option<Finding> {
    let (before, after) = part.stations.around(index);
    let inner = !before.is_empty() && !after.is_empty();
    // Of an end the next two, of which one may be out itself.
    let each = if inner { 1 } else { 2 };
    let before = before.iter().rev().take(each).map(leaves);
    let beside: Vec<Length> = before
        .chain(after.iter().take(each).map(|it| it.dia))
        .collect();
    let most = *beside.iter().max()?;
    let dia = here.dia;
    // What comes to a point has no width to compare with.
    let pointed = beside.iter().any(|it| it.is_zero());
    let least = *beside.iter().filter(|it| it.is_positive()).min()?;
    let wide = dia.to_mm() > times * most.to_mm();
    let narrow = dia.is_positive() && dia.to_mm() * times < least.to_mm();
    // An end may come to a point, or near it; not where a hole lies there that is wider.
    let may_be = !inner || pointed;
    if !(wide || narrow && (!may_be || holds_wider(part, index))) {
        return None;
    }
    let message = text!(
        "{} beside {}",
        words::dia(dia),
        words::list(&beside.iter().map(|it| words::dia(*it)).collect::<Vec<_>>())
    );
    let at = number_of(design, here.dia_span, dia);
    let mut finding = RULE.at(at, message);
    if at != here.dia_span {
        finding = finding.label(here.dia_span, "it is the outside here");
    }
    // It can be turned, and may be meant.
    finding.severity = Severity::Warning;
    let meant = ScaleMistake {
        least: Length::mm(least.to_mm() / NEAR),
        most: Length::mm(most.to_mm() * NEAR),
    };
    let finding = meant.offered(design, at, dia, finding);
    (!finding.fixes.is_empty()).then_some(finding)
}

/// The diameter that the outside leaves a station at.
fn leaves(station: &Station) -> Length {
    station.step.unwrap_or(station.dia)
}

fn widest(station: &Station) -> Length {
    leaves(station).max(station.dia)
}

/// Whether a hole is wider than what is left at a station, and lies between those on both sides of it.
fn holds_wider(part: &Part, index: StationId) -> bool {
    let (before, after) = part.stations.around(index);
    let from = before.last().map_or(Length::ZERO, |it| it.at);
    let to = after.first().map_or(part.length, |it| it.at);
    let dia = part.stations.get(index).map_or(Length::ZERO, |it| it.dia);
    part.features.iter().any(|it| {
        let (near, far) = (part.station(it.end, it.from), part.station(it.end, it.to));
        let lies = near.min(far) < to && near.max(far) > from;
        it.is_inside() && lies && it.dia().is_some_and(|hole| hole > dia)
    })
}
