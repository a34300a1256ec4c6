//! `out-of-proportion`: a size that is many times what stands beside it.

use crate::{Findings, PartView, PenView, Rule, Run, Threshold, words};
use quillet_geometry::Length;
use quillet_model::{Configured, Cut, Design, Feature, Part, Station, StationId, Units};
use quillet_syntax::{Edit, Finding, Severity, Size, SizedText, Span, text};

pub(crate) static RULE: Rule = Rule {
    code: "out-of-proportion",
    severity: Severity::Error,
    limit: Some(Threshold::Number),
    page: include_str!("out-of-proportion.md"),
    run: Run::PartAndPen(run, arms),
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
        if let Some(finding) = hole(view.design, part, cut, times) {
            findings.push(finding);
        }
    }
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

/// A hole many times as wide as the part.
fn hole(design: &Design, part: &Part, cut: &Feature, times: f64) -> Option<Finding> {
    let written = matches!(
        cut.cut,
        Cut::Drill {
            assumed_for: None,
            ..
        } | Cut::Bore { .. }
            | Cut::Ream { .. }
            | Cut::Recess { .. }
            | Cut::Countersink { .. }
    );
    let (dia, outside) = (cut.dia().filter(|_| written)?, outside(part)?);
    if dia.to_mm() <= times * outside.to_mm() {
        return None;
    }
    let message = text!(
        "a {} of {} in a part of {}",
        cut.called(),
        words::dia(dia),
        words::dia(outside)
    );
    let finding = RULE.at(cut.size_span, message);
    let meant = ScaleMistake {
        least: Length::ZERO,
        most: outside,
    };
    Some(meant.offered(design, cut.size_span, dia, finding))
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

/// Where the number of a size is written: at its place, or in the `let` whose name stands there.
fn number_of(design: &Design, at: Span, size: Length) -> Span {
    let names = &design.names;
    let named = names.at(at).and_then(|it| names.definitions.get(it));
    let value = named.and_then(|it| {
        let text = design.text(it.item);
        let value = text.get(text.find('=')? + 1..)?.trim();
        let is_all = parsed(value, design.units_at(it.item)) == Some(size);
        let end = it.item.range().start + text.trim_end().len();
        is_all.then(|| Span::new(it.item.file, end - value.len(), end))
    });
    value.unwrap_or(at)
}

/// A number without a unit, in that of its file.
fn parsed(number: &str, units: Units) -> Option<Length> {
    match units {
        Units::Millimetres => Length::parse_mm(number),
        Units::Inches => Length::parse_inches(number),
    }
}

/// From what to what a size can be meant to be.
struct ScaleMistake {
    least: Length,
    most: Length,
}

impl ScaleMistake {
    /// With what the number may have been meant to say: another unit, or its point elsewhere.
    fn offered(&self, design: &Design, span: Span, dia: Length, finding: Finding) -> Finding {
        let reported = design.text(span).trim();
        let bare = reported.strip_suffix("in").or(reported.strip_suffix("mm"));
        let units = design.units_at(span);
        let unitless = bare.filter(|bare| bare.parse::<f64>().is_ok());
        let number = reported.parse::<f64>().is_ok();
        let mut meant: Vec<(Length, SizedText)> = Vec::new();
        if let Some(bare) = unitless
            && let Some(size) = parsed(bare, units)
        {
            meant.push((size, bare.to_owned().into()));
        }
        if unitless.is_some() || number {
            let scaled = [10.0, 0.1, 25.4, 1.0 / 25.4].map(|by| Length::mm(dia.to_mm() * by));
            meant.extend(scaled.map(|size| (size, Size::Written(size).into())));
        }
        let fits = |size: Length| self.least < size && size < self.most;
        let held = meant.into_iter().filter(|(size, _)| fits(*size));
        held.fold(finding, |finding, (_, written)| {
            let title = text!("write {}", written.clone());
            let edit = Edit::new(span, written);
            match finding.hint {
                None => finding.hint(title.clone()).fix_all(title, vec![edit]),
                Some(_) => finding.fix_all(title, vec![edit]),
            }
        })
    }
}
