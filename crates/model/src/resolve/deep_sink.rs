//! A countersink that leaves nothing of the hole it is to break.

use crate::{Cut, Design, Feature, Origin, Part};
use quillet_geometry::{Angle, Length};
use quillet_syntax::{Edit, Finding, Severity, Size, Span, text};

/// The countersinks whose cone is as wide as the hole still where that ends, and sharp ones where no
/// hole opens. Each with what is to be said of it.
pub(super) fn deep(design: &Design, part: &Part) -> Vec<(Origin, Finding)> {
    let mut found = Vec::new();
    for (index, cut) in part.features.with_ids() {
        let Cut::Countersink { dia, angle } = cut.cut else {
            continue;
        };
        let holes: Vec<Mouth<'_>> = part
            .features
            .iter()
            .filter_map(|hole| Mouth::of(part, cut, hole))
            .collect();
        // One as wide as its hole takes nothing; that is another matter.
        if holes.iter().any(|it| it.dia >= dia) {
            continue;
        }
        let finding = match holes.iter().max_by_key(|it| it.to) {
            Some(last) if holes.iter().all(|it| it.is_swallowed(dia, angle)) => {
                Some(too_deep(design, part, cut, (dia, angle), last))
            }
            None if part.whole => into_the_solid(part, cut, (dia, angle)),
            _ => None,
        };
        let Some(finding) = finding else { continue };
        found.push((Origin::FeatureEdge(index), finding));
    }
    found
}

/// A hole that opens at the end a countersink is cut from.
struct Mouth<'p> {
    hole: &'p Feature,
    /// Its diameter at the face.
    dia: Length,
    /// How far in from that face it ends, to its full diameter.
    to: Length,
}

impl<'p> Mouth<'p> {
    fn of(part: &Part, sink: &Feature, hole: &'p Feature) -> Option<Self> {
        let near = hole.end == sink.end;
        let (from, to) = match near {
            true => (hole.from, hole.to),
            false => (part.length - hole.to, part.length - hole.from),
        };
        let dia = match &hole.cut {
            Cut::Drill { dia, .. } | Cut::Bore { dia, .. } | Cut::Ream { dia, .. } => *dia,
            Cut::Taper { from_dia, to_dia } => {
                if near {
                    *from_dia
                } else {
                    *to_dia
                }
            }
            _ => return None,
        };
        (!from.is_positive()).then_some(Self { hole, dia, to })
    }

    /// Whether the cone is as wide as it still where it ends.
    fn is_swallowed(&self, dia: Length, angle: Angle) -> bool {
        angle.cone_depth_mm((dia - self.dia).to_mm() / 2.0) >= self.to.to_mm()
    }
}

fn too_deep(
    design: &Design,
    part: &Part,
    cut: &Feature,
    (dia, angle): (Length, Angle),
    last: &Mouth<'_>,
) -> Finding {
    let deep = Length::mm(angle.cone_depth_mm((dia - last.dia).to_mm() / 2.0));
    let past = match last.to >= part.length {
        true => text!("the part is {} long", part.length),
        false => text!(
            "the {} {} that it breaks ends at {}",
            Size::Diameter(last.dia),
            last.hole.called(),
            last.to
        ),
    };
    let finding = Finding::new(
        "out-of-range",
        Severity::Error,
        cut.span,
        text!(
            "at {}° this countersink goes in {}, and {}; it breaks a mouth, no more",
            angle.deg_text(2),
            Size::Rounded(deep, 2),
            past
        ),
    )
    .label(last.hole.span, "the hole it breaks")
    .hint("leave the angle out for 90°, or write a diameter a little wider than the hole");
    match angle_words(design, cut.span) {
        Some(words) => finding.fix_all("leave the angle out, for 90°", vec![Edit::new(words, "")]),
        None => finding,
    }
}

/// A cone in the solid, as a seat for a ball, is cut by no tool sharper than a centre drill, and not
/// through to the other end.
fn into_the_solid(part: &Part, cut: &Feature, (dia, angle): (Length, Angle)) -> Option<Finding> {
    let deep = Length::mm(angle.cone_depth_mm(dia.to_mm() / 2.0));
    if !cut.is_sharp() && deep < part.length {
        return None;
    }
    let finding = Finding::new(
        "out-of-range",
        Severity::Error,
        cut.span,
        text!(
            "at {}° this countersink goes {} into the solid: no hole opens at the {} for it to break",
            angle.deg_text(2),
            Size::Rounded(deep, 2),
            part.end_name(cut.end)
        ),
    );
    Some(finding.hint("write the hole it breaks, or leave the angle out for 90°"))
}

/// Where in `countersink 10 angle 82` the angle is said, with the blank before it.
fn angle_words(design: &Design, statement: Span) -> Option<Span> {
    let written = design.text(statement);
    let at = written.find(" angle ")?;
    let after = at + " angle ".len();
    let rest = &written[after..];
    let end = rest.find(" as ").map_or(written.len(), |end| after + end);
    let start = statement.start as usize;
    Some(Span::new(statement.file, start + at, start + end))
}
