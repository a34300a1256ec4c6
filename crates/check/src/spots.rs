//! Places where parts meet, in a maker's words.

use crate::words;
use quillet_geometry::Length;
use quillet_model::{Cut, Feature, Origin, Part, PartFace, Pen, SurfacePoint};
use quillet_syntax::{Size, SizedText, Span, text};

/// The place in words, with its part: `barrel's shoulder`, `the point of cap's ⌀12.20 drill`.
pub fn words(pen: &Pen, spot: &SurfacePoint) -> SizedText {
    let Some(part) = pen.parts.get(spot.part) else {
        return SizedText::default();
    };
    let name = &part.name.text;
    if let Some(face) = face_at(part, spot) {
        return text!("{}'s {}", name, face.name.text);
    }
    match (spot.origin, feature(part, spot.origin)) {
        (Origin::Face(end), _) => text!("{}'s {}", name, part.end_name(end)),
        (Origin::DrillPoint(_), Some(cut)) => {
            text!("the point of {}'s {}", name, words::sized(cut))
        }
        (_, Some(cut)) => match &cut.cut {
            Cut::Thread { thread, .. } => text!("{}'s {}", name, bare(&thread.called())),
            _ => text!("{}'s {}", name, words::sized(cut)),
        },
        _ => text!(
            "{} at {} ({})",
            name,
            Size::Near(Length::mm(spot.station_mm), 2),
            words::dia(Length::mm(spot.radius_mm).twice())
        ),
    }
}

/// Where the place is said.
pub fn span(pen: &Pen, spot: &SurfacePoint) -> Span {
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
fn face_at<'a>(part: &'a Part, spot: &SurfacePoint) -> Option<&'a PartFace> {
    let at = |face: &&PartFace| (face.at.to_mm() - spot.station_mm).abs() < 1e-6;
    let flat = !matches!(spot.origin, Origin::DrillPoint(_));
    part.faces.iter().find(at).filter(|_| flat)
}

fn bare(called: &str) -> &str {
    called.strip_prefix("the ").unwrap_or(called)
}
