//! Cuts that are out of proportion to what they meet: the part, the hole they lie in, or what has to
//! pass them.

use super::scale::ScaleMistake;
use super::{RULE, outside};
use crate::{JointView, shape, words};
use quillet_geometry::Length;
use quillet_model::{Closing, Cut, Design, Feature, Part, ThreadDef};
use quillet_syntax::{Finding, text};
use std::sync::Arc;

/// A cut many times as wide as its part, or lost in a hole that is many times as wide.
pub(super) fn one(design: &Design, part: &Part, cut: &Feature, times: f64) -> Option<Finding> {
    let (dia, outside) = (cut.dia()?, outside(part)?);
    if let Cut::Thread { thread, .. } = &cut.cut {
        return designation(design, part, thread, times);
    }
    if !is_written(cut) {
        return None;
    }
    let wide = dia.to_mm() > times * outside.to_mm();
    let (message, least) = match (wide, lost_in(part, cut, (dia, outside), times)) {
        (true, _) => {
            let part = words::dia(outside);
            let message = text!(
                "a {} of {} in a part of {}",
                cut.called(),
                words::dia(dia),
                part
            );
            (message, Length::ZERO)
        }
        (false, Some((hole, around))) => {
            let hole = words::sized(hole);
            let message = text!(
                "a {} of {} within the {}",
                cut.called(),
                words::dia(dia),
                hole
            );
            (message, around)
        }
        (false, None) => return None,
    };
    let meant = ScaleMistake {
        least,
        most: outside,
    };
    let finding = RULE.at(cut.size_span, message);
    Some(meant.offered(design, cut.size_span, dia, finding))
}

/// Whether a cut's diameter was written, and not worked out from another's.
fn is_written(cut: &Feature) -> bool {
    match &cut.cut {
        Cut::Drill { assumed_for, .. } | Cut::Tenon { assumed_for, .. } => assumed_for.is_none(),
        Cut::Bore { .. }
        | Cut::Ream { .. }
        | Cut::Recess { .. }
        | Cut::Countersink { .. }
        | Cut::Relief { .. }
        | Cut::Groove { .. } => true,
        Cut::Thread { .. } | Cut::Taper { .. } | Cut::Edge(_) => false,
    }
}

/// The hole that a bore lies in whole and that is many times as wide; a drill may be a pilot.
fn lost_in<'p>(
    part: &'p Part,
    cut: &Feature,
    (dia, outside): (Length, Length),
    times: f64,
) -> Option<(&'p Feature, Length)> {
    if !matches!(
        cut.cut,
        Cut::Bore { .. } | Cut::Ream { .. } | Cut::Recess { .. }
    ) {
        return None;
    }
    let (from, to) = cut.stations(part.length);
    let around = part.features.iter().filter(|hole| {
        let (low, high) = hole.stations(part.length);
        hole.is_inside() && low <= from && to <= high
    });
    let sizes = around.filter_map(|hole| Some((hole, hole.dia()?)));
    // What comes out of the part is itself what is out.
    let widest = sizes
        .filter(|(_, dia)| *dia < outside)
        .max_by_key(|(_, dia)| *dia);
    widest.filter(|(_, wide)| wide.to_mm() > times * dia.to_mm())
}

/// A thread many times as wide as every part it is cut on: told where its designation is written.
fn designation(
    design: &Design,
    part: &Part,
    thread: &Arc<ThreadDef>,
    times: f64,
) -> Option<Finding> {
    let at = thread.designation.span;
    let others = design.parts.iter().map(Arc::as_ref);
    let others = others.filter(|it| shape::cuts_thread(it, at));
    let widths = others.filter_map(outside).chain(outside(part));
    let (widest, major) = (widths.max()?, thread.thread.major());
    if major.to_mm() <= times * widest.to_mm() {
        return None;
    }
    let (major, part) = (words::dia(major), words::dia(widest));
    let finding = RULE.at(at, text!("a thread of {} on a part of {}", major, part));
    let meant = ScaleMistake {
        least: Length::ZERO,
        most: widest,
    };
    Some(meant.designated(design, at, finding))
}

/// The hole of a part that what has to pass it is many times as wide as, with the part's name.
pub(super) fn throat(view: &JointView<'_>, times: f64) -> Option<(Arc<str>, Finding)> {
    let verdict = &view.at_rest()?.verdict;
    let Closing::Blocked(blocked) = &verdict.closing else {
        return None;
    };
    let pen = view.pen.pen;
    let part = pen.parts.get(blocked.throat.part)?;
    let passes = pen.parts.get(blocked.passes.part)?;
    let hole = part.features.get(blocked.throat.origin.feature()?)?;
    let (fat, dia) = (Length::mm(blocked.passes.radius_mm).twice(), hole.dia()?);
    if part.is_bought() || !is_written(hole) || fat.to_mm() <= times * dia.to_mm() {
        return None;
    }
    let message = text!(
        "a {} of {} where {} is to pass, of {}",
        hole.called(),
        words::dia(dia),
        passes.name.text,
        words::dia(fat)
    );
    let meant = ScaleMistake {
        least: fat,
        most: outside(part)?,
    };
    let finding = RULE.at(hole.size_span, message);
    let finding = meant.offered(view.pen.design, hole.size_span, dia, finding);
    // Where no other point or unit lets it pass, the one or the other may be what is wrong.
    (!finding.fixes.is_empty()).then(|| (part.name.text.clone(), finding))
}
