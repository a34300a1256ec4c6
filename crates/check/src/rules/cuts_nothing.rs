//! `cuts-nothing`: a cut that removes nothing.

mod flats;

use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, edits, propose, words};
use quillet_geometry::Chain;
use quillet_model::{Cut, CutId, Feature, Origin, Part, Profiles};
use quillet_syntax::ast::Side;
use quillet_syntax::{Finding, Severity, SizedText, text};
use std::collections::{BTreeMap, BTreeSet};

pub(crate) static RULE: Rule = Rule {
    code: "cuts-nothing",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("cuts-nothing.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    swallowed_corners(view, profiles, findings);
    flats::run(view, profiles, findings);
    let left = leaving_a_surface(profiles);
    let mut taken: BTreeMap<Option<CutId>, Vec<(CutId, &Feature)>> = BTreeMap::new();
    for (index, cut) in part.features.with_ids() {
        if left.contains(&index) || is_expected(part, cut) {
            continue;
        }
        // A hole as wide as its thread is `off-tap-drill`.
        let threaded = Threaded::of((index, cut));
        if threaded.is_some_and(|it| shape::swallowing_hole(part, &it).is_some()) {
            continue;
        }
        let by = taken_by(part, (index, cut));
        taken.entry(by).or_default().push((index, cut));
    }
    for (by, cuts) in taken {
        match by.and_then(|by| part.features.get(by)) {
            // Of one that takes what several were to leave, that one is told.
            Some(by) if cuts.len() > 1 => findings.push(takes_all(view, by, &cuts)),
            _ => {
                for cut in cuts {
                    nothing(view, cut, findings);
                }
            }
        }
    }
}

/// A cut that leaves nothing.
fn nothing(view: &PartView<'_>, (index, cut): (CutId, &Feature), findings: &mut Findings) {
    let (why, hint) = match cut.is_inside() {
        true => (
            "the hole there is wider already",
            "make it wider or deeper, or take it out",
        ),
        false => (
            "the outside there is smaller already",
            "make it smaller, or take it out",
        ),
    };
    let message = text!("this {} removes nothing; {}", cut.called(), why);
    let finding = RULE.at(cut.span, message).hint(hint);
    let slipped = propose::slipped(view.design, &finding);
    let out = edits::take_out(view.design, cut.span);
    let finding = propose::with(finding, slipped).fix_all("take it out", vec![out]);
    let (from, to) = cut.stations(view.part.length);
    let severity = severity(&[(index, cut)]);
    findings.push_at(
        Finding {
            severity,
            ..finding
        },
        from,
        to,
    );
}

/// A cut that leaves nothing for several others to cut.
fn takes_all(view: &PartView<'_>, by: &Feature, cuts: &[(CutId, &Feature)]) -> Finding {
    let called: Vec<SizedText> = cuts.iter().map(|(_, it)| words::sized(it)).collect();
    let message = text!(
        "this {} leaves nothing to cut for the {}",
        by.called(),
        words::list(&called)
    );
    let finding = RULE.at(by.reach_span, message);
    // No more are pointed at than are named.
    let shown = cuts.iter().take(words::MOST_LISTED);
    let finding = shown.fold(finding, |finding, (_, cut)| {
        finding.label(cut.span, "it removes nothing")
    });
    let finding = finding.hint(text!(
        "make the {} shorter, or take the others out",
        by.called()
    ));
    let slipped = propose::slipped(view.design, &finding);
    Finding {
        severity: severity(cuts),
        ..propose::with(finding, slipped)
    }
}

/// A cut that turns in air does no harm; a thread that is not there holds nothing.
fn severity(cuts: &[(CutId, &Feature)]) -> Severity {
    match cuts.iter().any(|cut| Threaded::of(*cut).is_some()) {
        true => Severity::Error,
        false => RULE.severity,
    }
}

/// The plain cut from the same end that takes all that another was to leave.
fn taken_by(part: &Part, (index, cut): (CutId, &Feature)) -> Option<CutId> {
    let dia = cut.dia()?;
    let takes = |(id, other): &(CutId, &Feature)| {
        let covers = other.from <= cut.from && cut.to <= other.to;
        let plain = other.thread().is_none() && other.is_inside() == cut.is_inside();
        let beyond = other.dia().is_some_and(|it| match cut.is_inside() {
            true => it >= dia,
            false => it <= dia,
        });
        *id != index && other.end == cut.end && covers && plain && beyond
    };
    let all = part.features.with_ids().filter(takes);
    let deepest = all.max_by_key(|(_, other)| other.dia().map(|it| (it - dia).abs()));
    deepest.map(|(id, _)| id)
}

/// The broken corners of stations that a cut outside takes away whole.
fn swallowed_corners(view: &PartView<'_>, profiles: &Profiles, findings: &mut Findings) {
    let part = view.part;
    let turned = profiles.turned().segments();
    for (id, station) in part.stations.with_ids() {
        let origin = Origin::StationEdge(id);
        let left = || turned.iter().any(|it| profiles.origin(it.tag) == origin);
        if station.edge.is_none() || left() {
            continue;
        }
        let over = part.features.iter().find(|cut| {
            let (from, to) = cut.stations(part.length);
            let turns = !cut.is_inside() && !matches!(cut.cut, Cut::Edge(_));
            turns && from <= station.at && station.at <= to
        });
        let Some(cut) = over else { continue };
        let message = text!(
            "this broken corner is not there: the {} takes all of it",
            words::sized(cut)
        );
        let finding = RULE.at(words::span_of(part, origin), message);
        findings.push_at(
            finding
                .label(cut.span, "what takes it")
                .hint("take it out, or break the corner that the cut leaves"),
            station.at,
            station.at,
        );
    }
}

/// The cuts that some piece of a profile comes from.
fn leaving_a_surface(profiles: &Profiles) -> BTreeSet<CutId> {
    [&profiles.root, &profiles.crest, &profiles.metal]
        .into_iter()
        .flat_map(|solid| solid.inner.iter().chain([&solid.outer]))
        .flat_map(Chain::segments)
        .filter_map(|piece| profiles.origin(piece.tag).feature())
        .collect()
}

/// A pilot, a hole that its thread takes away, a tenon under its thread, and a broken corner,
/// which the model tells of where there is none to break.
fn is_expected(part: &Part, cut: &Feature) -> bool {
    let over = |side: Side| {
        part.features.iter().any(|other| {
            other.end == cut.end
                && other.thread().is_some_and(|(_, of)| of == side)
                && other.from < cut.to
                && cut.from < other.to
        })
    };
    match cut.cut {
        Cut::Drill { .. } | Cut::Edge(_) => true,
        Cut::Bore { .. } | Cut::Ream { .. } => over(Side::Inside),
        Cut::Tenon { .. } => over(Side::Outside),
        _ => false,
    }
}
