//! What is not made yet goes where a face in its plane was measured.

use super::sizes::MadeSizes;
use crate::{Measured, Operation, Work};
use quillet_geometry::Length;

/// Moves an operation's cut to where it begins and ends now; the cut is as wide as it is drawn.
pub(super) fn go_along(operation: &mut Operation, sizes: &MadeSizes<'_>) {
    let first = operation.features.first();
    let Some((was, is)) = first.and_then(|it| sizes.not_yet(*it)) else {
        return;
    };
    let (from, to) = (is.from - was.from, is.to - was.to);
    if (from, to) == (Length::ZERO, Length::ZERO) {
        return;
    }
    match &mut operation.work {
        Work::Inside(cut) if cut.end == was.end => {
            (cut.from, cut.to) = (cut.from + from, cut.to + to);
        }
        Work::Turn(cut) if cut.end == was.end => {
            (cut.from, cut.to) = (cut.from + from, cut.to + to);
        }
        Work::Thread(cut) if cut.end == was.end => {
            (cut.from, cut.to) = (cut.from + from, cut.to + to);
        }
        _ => return,
    }
    if let Some(depth) = &mut operation.depth {
        depth.to_corner += to;
        depth.to_point = depth.to_point.map(|it| it + to);
    }
    if let Some(last) = operation
        .tailstock
        .as_mut()
        .and_then(|it| it.stops.last_mut())
    {
        *last += to;
    }
    for check in &mut operation.checks {
        if matches!(check.what, Measured::Depth { .. } | Measured::Point { .. }) {
            check.nominal += to;
            check.limits = check.limits.moved(to);
        }
    }
}
