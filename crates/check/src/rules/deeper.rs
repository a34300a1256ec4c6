//! The edit that drills a hole deeper.

use crate::{JointView, spots, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature, Spot};
use quillet_syntax::{Edit, Size, SizedText, Span, text};

/// Room left beyond what must go in, mm: a depth is not drilled to the tenth.
pub(super) const ROOM_MM: f64 = 0.5;

/// The cut at a place made deeper by at least `by_mm`, to the next half millimetre, with what it
/// does in words; none where no hole's depth is written there as a number.
pub(super) fn deeper(view: &JointView<'_>, spot: &Spot, by_mm: f64) -> Option<(SizedText, Edit)> {
    let part = view.pen.pen.parts.get(spot.part)?;
    let hole = spots::feature(part, spot.origin)?;
    if part.bought || !is_hole(hole) || hole.through {
        return None;
    }
    let (span, depth) = written(view.pen.design.text(hole.reach_span), hole)?;
    let deeper = ((depth + by_mm) * 2.0).ceil() / 2.0;
    let text = Length::mm(deeper).mm_text(2).into();
    let to = Length::mm(deeper - depth) + hole.to;
    let title = text!(
        "take {}'s {} to {}",
        part.name.text,
        words::sized(hole),
        Size::Near(to, 2)
    );
    Some((title, Edit { span, text }))
}

/// Where in `to 54`, `for 8 at 2` or the like the millimetres are written, and how many; none
/// where it is not a number or not in millimetres.
fn written(reach: &str, hole: &Feature) -> Option<(Span, f64)> {
    let word = ["to", "for"].into_iter().find(|it| reach.starts_with(it))?;
    let blank = reach[word.len()..].len() - reach[word.len()..].trim_start().len();
    let from = word.len() + blank;
    let number = reach[from..].split_whitespace().next()?;
    let depth: f64 = number.parse().ok()?;
    let meant = if word == "to" {
        hole.to
    } else {
        hole.to - hole.from
    };
    let start = hole.reach_span.start + u32::try_from(from).ok()?;
    let end = start + u32::try_from(number.len()).ok()?;
    let span = Span {
        start,
        end,
        ..hole.reach_span
    };
    (Length::mm(depth) == meant).then_some((span, depth))
}

fn is_hole(feature: &Feature) -> bool {
    matches!(
        feature.cut,
        Cut::Drill { .. } | Cut::Bore { .. } | Cut::Ream { .. }
    )
}
