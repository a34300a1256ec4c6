//! Places where parts meet, in a maker's words.

use crate::words;
use quillet_geometry::Length;
use quillet_model::{Cut, Feature, Origin, Part, PartFace, Pen, Spot};
use quillet_syntax::Span;

/// The place in words, with its part: `barrel's shoulder`, `the point of cap's ⌀12.20 drill`.
pub fn words(pen: &Pen, spot: &Spot) -> String {
    let Some(part) = pen.parts.get(spot.part) else {
        return String::new();
    };
    let name = &part.name.text;
    if let Some(face) = face_at(part, spot) {
        return format!("{name}'s {}", face.name.text);
    }
    match (spot.origin, feature(part, spot.origin)) {
        (Origin::Face(end), _) => format!("{name}'s {}", part.end_name(end)),
        (Origin::DrillPoint(_), Some(cut)) => {
            format!("the point of {name}'s {}", words::sized(cut))
        }
        (_, Some(cut)) => match &cut.cut {
            Cut::Thread { thread, .. } => format!("{name}'s {}", bare(&thread.called())),
            _ => format!("{name}'s {}", words::sized(cut)),
        },
        _ => format!(
            "{name} at {} ({})",
            Length::mm(spot.station_mm).mm_text(2),
            words::dia(Length::mm(spot.radius_mm).twice())
        ),
    }
}

/// Where the place is said.
pub fn span(pen: &Pen, spot: &Spot) -> Span {
    let Some(part) = pen.parts.get(spot.part) else {
        return pen.name.span;
    };
    match face_at(part, spot) {
        Some(face) if face.end.is_none() => face.span,
        _ => words::span_of(part, spot.origin),
    }
}

/// The cut that made a surface.
pub(crate) fn feature(part: &Part, origin: Origin) -> Option<&Feature> {
    part.features.get(origin.feature()?)
}

/// The face named there, where the place is flat: the outside of a part, or the end of a cut.
fn face_at<'a>(part: &'a Part, spot: &Spot) -> Option<&'a PartFace> {
    let at = |face: &&PartFace| (face.at.to_mm() - spot.station_mm).abs() < 1e-6;
    let flat = !matches!(spot.origin, Origin::DrillPoint(_));
    part.faces.iter().find(at).filter(|_| flat)
}

fn bare(called: &str) -> &str {
    called.strip_prefix("the ").unwrap_or(called)
}
