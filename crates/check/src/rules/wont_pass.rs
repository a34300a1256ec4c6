//! `wont-pass`: a throat too narrow for what must go through it.

use super::pressed::Pressed;
use crate::shape::threads;
use crate::{Findings, JointView, Rule, Run, Threshold, propose, spots, words};
use quillet_geometry::Length;
use quillet_model::{
    AtRest, Blocked, ClearanceKind, Closing, Design, Feature, Part, PartId, SurfacePoint, ThreadDef,
};
use quillet_syntax::ast::Side;
use quillet_syntax::{Finding, Severity, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "wont-pass",
    severity: Severity::Error,
    limit: Some(Threshold::Length),
    page: include_str!("wont-pass.md"),
    run: Run::Joint(run),
};

/// What a converter or cartridge of the usual size wants to pass freely: common practice, no
/// published source.
const CONVERTER: Length = Length::from_nm(8_000_000);
/// From this size on it is one of the usual size.
const USUAL: Length = Length::from_nm(7_000_000);
/// Room for a slimmer one, on diameter.
const ROOM: Length = Length::from_nm(500_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|rest| !rest.redundant) else {
        return;
    };
    match &rest.verdict.closing {
        Closing::Blocked(blocked) => {
            // A spring that is pressed solid stops it, not what it lies against.
            if Pressed::of(view, rest).is_some() {
                return;
            }
            let own = blocked.touch.male.part == view.joint.male.part;
            if own || !rest.verdict.upset {
                let finding = too_fat(view, blocked);
                findings.push(propose::with(finding, propose::turned(view)));
            }
        }
        _ if rest.verdict.upset => {}
        _ => {
            for finding in tight(view, rest) {
                findings.push(finding);
            }
        }
    }
}

fn too_fat(view: &JointView<'_>, blocked: &Blocked) -> Finding {
    let pen = view.pen.pen;
    let (thin, bore) = (&blocked.passes, &blocked.throat);
    let (male, female) = (&pen.parts[thin.part], &pen.parts[bore.part]);
    let dia = |spot: &SurfacePoint| Length::mm(spot.radius_mm).twice();
    let (fat, throat) = (dia(thin), words::dia(dia(bore)));
    let mut place = spots::words(pen, bore);
    if !place.contains(&*throat) {
        place = text!("{} ({})", place, throat);
    }
    let message = text!(
        "{} ({}) won't pass {}",
        male.name.text,
        words::dia(fat),
        place
    );
    let finding = RULE
        .at(view.joint.head, message)
        .label(spots::span(pen, bore), "the throat")
        .label(spots::span(pen, thin), "too fat for it");
    widened(view.pen.design, female, bore, wanted(male, fat), finding)
}

/// Where a converter does pass, but by less than is usual.
fn tight(view: &JointView<'_>, rest: &AtRest) -> Vec<Finding> {
    let pen = view.pen.pen;
    let through = rest
        .clearances
        .iter()
        .filter(|it| it.kind == ClearanceKind::RadialClearance);
    through
        .filter_map(|it| {
            let (male, female) = (&pen.parts[it.male.part], &pen.parts[it.female.part]);
            male.holds_ml()?;
            if female.is_blind_point(&it.female) {
                return None;
            }
            let own = |part: PartId| [view.joint.male.part, view.joint.female.part].contains(&part);
            let fat = Length::mm(it.male.radius_mm).twice();
            let throat = Length::mm(it.female.radius_mm).twice();
            let wanted = view.length_limit(&RULE, wanted(male, fat));
            if female.is_bought() || own(it.male.part) && own(it.female.part) || throat >= wanted {
                return None;
            }
            let message = text!(
                "{} ({}) passes {} ({}), but {} is wanted to let it through freely",
                male.name.text,
                words::dia(fat),
                spots::words(pen, &it.female),
                words::dia_against(throat, wanted),
                words::dia_against(wanted, throat)
            );
            let finding = RULE.at(view.joint.head, message);
            let finding = Finding {
                severity: Severity::Warning,
                ..finding
            }
            .label(spots::span(pen, &it.female), "the throat");
            Some(widened(
                view.pen.design,
                female,
                &it.female,
                wanted,
                finding,
            ))
        })
        .collect()
}

/// What a part of this diameter wants to pass freely.
fn wanted(male: &Part, fat: Length) -> Length {
    match male.holds_ml().is_some() && fat >= USUAL {
        true => CONVERTER.max(fat + ROOM.half()),
        false => fat + ROOM,
    }
}

/// With the edit that widens the hole, where its size is written as a number, no thread needs it as
/// it is, and enough is left round it.
fn widened(
    design: &Design,
    female: &Part,
    spot: &SurfacePoint,
    to: Length,
    finding: Finding,
) -> Finding {
    let to = design.units_at(female.span).up(to);
    if female.is_bought() {
        return finding.hint("take another, or make what goes through slimmer");
    }
    let hole = spots::feature(female, spot.origin);
    if let Some(thread) = hole.and_then(|hole| threaded_by(female, hole)) {
        return finding.hint(text!(
            "{} needs this hole as it is: make what goes through slimmer, or cut a larger thread",
            thread.called()
        ));
    }
    let outside = female.profiles.as_ref().and_then(|profiles| {
        let least = profiles.crest.outer.least_at(spot.station_mm)?;
        Some(Length::mm(least).twice())
    });
    if outside.is_some_and(|outside| outside <= to) {
        return finding.hint(text!(
            "{} is {} outside there: make what goes through slimmer, or it fatter",
            female.name.text,
            outside.map_or_else(SizedText::default, words::dia)
        ));
    }
    let advice = text!(
        "make the throat {}, or what goes through slimmer",
        words::dia(to)
    );
    let wider = hole.and_then(|hole| propose::hole(female, hole, to));
    propose::with(finding.hint(advice), wider)
}

/// The inside thread that is, or is cut in, this hole.
fn threaded_by<'p>(part: &'p Part, hole: &'p Feature) -> Option<&'p ThreadDef> {
    let own = hole.thread().map(|(thread, _)| thread);
    let (from, to) = hole.stations(part.length);
    let cut_in = || {
        threads(part, Side::Inside).find_map(|it| {
            let (low, high) = it.feature.stations(part.length);
            let over = low < to && from < high;
            let needs = hole.dia().is_some_and(|dia| dia < it.thread.thread.major());
            (over && needs).then_some(it.thread)
        })
    };
    own.or_else(cut_in).map(std::sync::Arc::as_ref)
}
