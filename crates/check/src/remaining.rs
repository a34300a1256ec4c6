//! Of a gap that fails in a pen that was made: the cuts that remain, and what of them would cure it.

use crate::{JointView, chain};
use quillet_geometry::Length;
use quillet_model::{Link, Part, Size as Sized};
use quillet_syntax::{Finding, Size, SizedText, text};

/// A size is cut to no less than this.
const STEP_MM: f64 = 0.05;
/// What moves a gap less than this a millimetre is no cure of it.
const MOVES: f64 = 0.1;

/// With the cuts that would give a gap the room it lacks, where the pen is one that was made.
pub(crate) fn told(
    view: &JointView<'_>,
    chain: &[Link],
    lacks_mm: f64,
    finding: Finding,
) -> Finding {
    let pen = view.pen.pen;
    if pen.made.is_none() {
        return finding;
    }
    let ways = chain.iter().filter_map(|link| {
        let part = pen.parts.get(link.size.part())?;
        Some(text!(
            "{} {}",
            chain::size(pen, link),
            to(part, link, lacks_mm)?
        ))
    });
    let ways: Vec<SizedText> = ways.collect();
    match ways.is_empty() {
        true => finding.hint("no cut that remains can cure it"),
        false => finding.hint(SizedText::joined(ways, "; or ")),
    }
}

/// What a size is cut to, where it can be: one that is made only loses metal.
fn to(part: &Part, link: &Link, lacks_mm: f64) -> Option<SizedText> {
    if part.is_bought() || link.factor.abs() < MOVES {
        return None;
    }
    let (now, deeper) = match link.size {
        Sized::Plane { at, .. } => (at, true),
        Sized::Whole { .. } => (part.length, false),
        _ => return None,
    };
    let by = lacks_mm / link.factor;
    let steps = (by.abs() / STEP_MM - 1e-6).ceil();
    let to = now + Length::mm(steps * STEP_MM * by.signum());
    if !to.is_positive() || to > part.length && deeper {
        return None;
    }
    let loses = (to > now) == deeper;
    let to = Size::Short(to);
    match (link.is_made(part), loses) {
        (false, _) => Some(text!("is not cut yet: to {}", to)),
        (true, true) => Some(text!("is cut: cut it on, to {}", to)),
        (true, false) => None,
    }
}
