//! `thread-cut-away`: a hole drilled from the one end into a thread cut from the other.

use crate::shape::{left_of, tapped_hole, threads};
use crate::{Findings, PartView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_model::{Cut, End, Feature, Part};
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "thread-cut-away",
    severity: Severity::Error,
    limit: None,
    page: include_str!("thread-cut-away.md"),
    run: Run::Part(run),
};

/// Less than this of a thread, mm, is lost in the accuracy of a depth.
const LOST_MM: f64 = 0.05;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    for it in threads(part, Side::Inside) {
        let own = tapped_hole(part, &it).is_some_and(|hole| hole.end == it.feature.end);
        let Some(hole) = opposite(part, it.feature).filter(|_| own) else {
            continue;
        };
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
