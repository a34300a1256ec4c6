//! `thread-cut-away`: a hole drilled from the one end into a thread cut from the other; a broken
//! edge that takes more of a thread than its first turns.

use crate::shape::{Threaded, left_of, swallowing_hole, tapped_hole, threads};
use crate::{Findings, PartView, Rule, Run, propose, words};
use quillet_geometry::{Chain, Length};
use quillet_model::{Cut, End, Feature, Origin, Part};
use quillet_syntax::ast::Side;
use quillet_syntax::{Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "thread-cut-away",
    severity: Severity::Error,
    limit: None,
    page: include_str!("thread-cut-away.md"),
    run: Run::Part(run),
};

/// Less than this of a thread, mm, is lost in the accuracy of a depth.
const LOST_MM: f64 = 0.05;

/// How many pitches of incomplete thread a broken edge leaves at an end: ISO 4753, u ≤ 2 P, from
/// memory.
const BROKEN_PITCHES: f64 = 2.0;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    edges(view, findings);
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    for it in threads(part, Side::Inside) {
        let own = tapped_hole(part, &it).is_some_and(|hole| hole.end == it.feature.end);
        let Some(hole) = opposite(part, it.feature).filter(|_| own) else {
            continue;
        };
        // What its own hole leaves nothing of, no other takes: `off-tap-drill`.
        if swallowing_hole(part, &it).is_some() {
            continue;
        }
        let (from, to) = it.feature.stations(part.length);
        let reach = to - from;
        // Of its inner end; a wider mouth of its own end takes of the other.
        let left = left_of(part, &profiles.root.inner, it.index);
        let lost = match (left, it.feature.end) {
            (None, _) => reach,
            (Some((_, end)), End::First) => to - Length::mm(end),
            (Some((start, _)), End::Second) => Length::mm(start) - from,
        };
        if lost.to_mm() < LOST_MM {
            continue;
        }
        let left_words = match left {
            None => "nothing is left of it".into(),
            Some(_) => text!("{} of its {} are cut away", Size::Rounded(lost, 2), reach),
        };
        let message = text!(
            "the {} from the {} runs into {} cut from the {}: {}",
            words::sized(hole),
            part.end_name(hole.end),
            it.thread.called(),
            part.end_name(it.feature.end),
            left_words
        );
        let finding = RULE
            .at(hole.span, message)
            .label(it.feature.span, "the thread it runs into");
        findings.push_at(finding.hint(cure(view, hole, it.feature)), from, to);
    }
}

/// Edges that take of a thread more than the turns it begins with.
fn edges(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    for side in [Side::Inside, Side::Outside] {
        for it in threads(part, side) {
            for (edge, taken) in broken(part, &it, side) {
                let pitch = it.thread.thread.pitch();
                let most = pitch.to_mm() * BROKEN_PITCHES;
                if taken.to_mm() <= most + 1e-6 {
                    continue;
                }
                findings.push(broken_away(view, &it, edge, taken));
            }
        }
    }
}

/// The broken edges over a thread of which something is left, and how much of its reach each takes.
fn broken(part: &Part, it: &Threaded<'_>, side: Side) -> Vec<(Origin, Length)> {
    let Some(profiles) = &part.profiles else {
        return Vec::new();
    };
    let (crest, root) = match side {
        Side::Inside => (&profiles.crest.inner[..], &profiles.root.inner[..]),
        Side::Outside => (
            std::slice::from_ref(&profiles.crest.outer),
            std::slice::from_ref(&profiles.root.outer),
        ),
    };
    if left_of(part, root, it.index).is_none() {
        return Vec::new();
    }
    let (from, to) = it.feature.stations(part.length);
    let mut taken: Vec<(Origin, Length)> = Vec::new();
    for piece in crest.iter().flat_map(Chain::segments) {
        let origin = profiles.origin(piece.tag);
        let (start, end) = (piece.curve.start().z, piece.curve.end().z);
        let over = Length::mm(end).min(to) - Length::mm(start).max(from);
        if !origin.is_edge() || !over.is_positive() {
            continue;
        }
        match taken.iter_mut().find(|(known, _)| *known == origin) {
            Some((_, sum)) => *sum += over,
            None => taken.push((origin, over)),
        }
    }
    taken
}

fn broken_away(view: &PartView<'_>, it: &Threaded<'_>, edge: Origin, taken: Length) -> Finding {
    let part = view.part;
    let cut = edge.feature().and_then(|index| part.features.get(index));
    let called = cut.map_or("broken corner", Feature::called);
    let pitch = it.thread.thread.pitch();
    let message = text!(
        "the {} takes {} of the {} of {}; two pitches, {}, is what a broken edge may take",
        called,
        Size::Rounded(taken, 2),
        it.feature.to - it.feature.from,
        it.thread.called(),
        pitch.twice()
    );
    let finding = Finding {
        severity: match taken < it.feature.to - it.feature.from {
            true => Severity::Warning,
            false => Severity::Error,
        },
        ..RULE.at(words::span_of(part, edge), message)
    };
    let finding = finding
        .label(it.feature.span, "the thread it runs into")
        .hint("make it smaller or its angle blunter, or let the thread begin behind it");
    let slipped = propose::slipped(view.design, &finding);
    propose::with(finding, slipped)
}

/// The hole from the other end that is as wide as a thread and reaches furthest towards it.
fn opposite<'p>(part: &'p Part, thread: &Feature) -> Option<&'p Feature> {
    let major = thread.dia()?;
    let wide = part.features.iter().filter(|hole| {
        let plain = matches!(
            hole.cut,
            Cut::Drill { .. } | Cut::Bore { .. } | Cut::Ream { .. } | Cut::Taper { .. }
        );
        plain && hole.end != thread.end && hole.dia().is_some_and(|dia| dia >= major)
    });
    wide.max_by_key(|hole| hole.to)
}

/// How deep the hole may go: its point too must stay clear of the thread.
fn cure(view: &PartView<'_>, hole: &Feature, thread: &Feature) -> SizedText {
    let part = view.part;
    let cone = match &hole.cut {
        Cut::Drill { dia, point, .. } => quillet_standards::drill::point_length(*dia, *point),
        _ => Length::ZERO,
    };
    let units = view.design.units_at(part.span);
    let most = units.down(part.length - thread.to - cone);
    match most > hole.from {
        true => text!(
            "take the {} to {} at most, or cut the thread less deep",
            words::sized(hole),
            Size::Near(most, 2)
        ),
        false => "make the part longer there, or the thread shorter".into(),
    }
}
