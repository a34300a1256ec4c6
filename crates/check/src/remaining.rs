//! Of a gap that fails in a pen that was made: the cuts that remain, and what of them would cure it.

use crate::{JointView, chain};
use quillet_geometry::Length;
use quillet_model::{Cut, Link, Origin, Part, Size as Sized};
use quillet_syntax::{Finding, Size, SizedText, Span, text};

/// A size is cut to no less than this.
const STEP_MM: f64 = 0.05;
/// What moves a gap less than this a millimetre is no cure of it.
const MOVES: f64 = 0.1;
/// A diameter moves what is left across the axis by half of it, and by nearly so where surfaces slope.
const ACROSS: f64 = 0.9;

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
        let way = text!("{} {}", chain::size(pen, link), to(part, link, lacks_mm)?);
        Some((way, (!link.is_made(part)).then_some(link.span)))
    });
    let (ways, left): (Vec<SizedText>, Vec<Option<Span>>) = ways.unzip();
    if ways.is_empty() {
        return finding.hint("no cut that remains can cure it");
    }
    let ways = SizedText::joined(ways, "; or ");
    let finding = finding.hint(text!("{}; quillet room says how far each can go", ways));
    let left = left.into_iter().flatten();
    left.fold(finding, |finding, at| finding.label(at, NOT_CUT_YET))
}

/// What is said at a cut that is left, of one that was made.
const NOT_CUT_YET: &str = "not cut yet";

/// Where the sizes are written that are not cut yet and would cure a finding of a pen that was made.
pub fn left_to_cut(finding: &Finding) -> impl Iterator<Item = Span> + '_ {
    let labels = finding.labels.iter();
    let left = labels.filter(|it| it.text == *NOT_CUT_YET);
    left.map(|it| it.span)
}

/// What a size is cut to, where it can be: one that is made only loses metal.
fn to(part: &Part, link: &Link, lacks_mm: f64) -> Option<SizedText> {
    if part.is_bought() || link.factor.abs() < MOVES {
        return None;
    }
    let face = Face::of(part, link)?;
    // A hole is made no wider to give room before its cone.
    if face.twice == 2.0 && link.factor.abs() < ACROSS {
        return None;
    }
    let by = lacks_mm / link.factor * face.twice;
    let steps = (by.abs() / STEP_MM - 1e-6).ceil();
    let to = face.now + Length::mm(steps * STEP_MM * by.signum());
    if !to.is_positive() || to > face.most {
        return None;
    }
    let loses = (to > face.now) == face.loses_by_more;
    let to = match face.twice == 2.0 {
        true => Size::Diameter(to),
        false => Size::Short(to),
    };
    match (link.is_made(part), loses) {
        (false, _) => Some(text!("is not cut yet: to {}", to)),
        (true, true) => Some(text!("is cut: cut it on, to {}", to)),
        (true, false) => None,
    }
}

/// A size of a chain as it is written.
struct Face {
    now: Length,
    /// No larger it can be.
    most: Length,
    /// Whether metal goes as the size grows.
    loses_by_more: bool,
    /// 2 of a diameter, of which a chain has the half; else 1.
    twice: f64,
}

impl Face {
    /// None of what no single cut makes.
    fn of(part: &Part, link: &Link) -> Option<Face> {
        let along = |now, loses_by_more, most| Face {
            now,
            most,
            loses_by_more,
            twice: 1.0,
        };
        match link.size {
            Sized::Plane { at, .. } => Some(along(at, true, part.length)),
            Sized::Whole { .. } => Some(along(part.length, false, part.length * 2)),
            Sized::Radius {
                of, second: false, ..
            } => {
                let (now, inside) = match of {
                    Origin::Outside(station) => (part.stations.get(station)?.dia, false),
                    of => {
                        let cut = part.features.get(of.feature()?)?;
                        let plain = !matches!(cut.cut, Cut::Taper { .. } | Cut::Thread { .. });
                        (cut.dia().filter(|_| plain)?, cut.is_inside())
                    }
                };
                Some(Face {
                    now,
                    most: now * 2,
                    loses_by_more: inside,
                    twice: 2.0,
                })
            }
            _ => None,
        }
    }
}
