//! `cuts-nothing`: a cut that removes nothing.

use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, edits, propose};
use quillet_geometry::Chain;
use quillet_model::{Cut, CutId, Feature, Part, Profiles};
use quillet_syntax::ast::Side;
use quillet_syntax::{Finding, Severity, text};
use std::collections::BTreeSet;

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
    let left = leaving_a_surface(profiles);
    for (index, cut) in part.features.with_ids() {
        if left.contains(&index) || is_expected(part, cut) {
            continue;
        }
        // A hole as wide as its thread is `off-tap-drill`.
        let threaded = Threaded::of((index, cut));
        if threaded.is_some_and(|it| shape::swallowing_hole(part, &it).is_some()) {
            continue;
        }
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
        let (from, to) = cut.stations(part.length);
        let finding = RULE.at(cut.span, message).hint(hint);
        let slipped = propose::slipped(view.design, &finding);
        let out = edits::take_out(view.design, cut.span);
        let finding = propose::with(finding, slipped).fix_all("take it out", vec![out]);
        // A cut that turns in air does no harm; a thread that is not there holds nothing.
        let severity = match threaded {
            Some(_) => Severity::Error,
            None => finding.severity,
        };
        findings.push_at(
            Finding {
                severity,
                ..finding
            },
            from,
            to,
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
