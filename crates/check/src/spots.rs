//! Places where parts meet, in a maker's words.

use crate::words;
use quillet_geometry::Length;
use quillet_model::words::SpotName;
use quillet_model::{Cut, Feature, Origin, Part, Pen, SurfacePoint};
use quillet_syntax::{Size, SizedText, Span, text};

/// The place in words, with its part: `barrel's shoulder`, `the point of cap's ⌀12.20 drill`.
pub fn words(pen: &Pen, spot: &SurfacePoint) -> SizedText {
    let Some(part) = pen.parts.get(spot.part) else {
        return SizedText::default();
    };
    let name = &part.name.text;
    match part.spot_name(spot) {
        SpotName::Face(face) => text!("{}'s {}", name, face.name.text),
        SpotName::End(end) => text!("{}'s {}", name, part.end_name(end)),
        SpotName::DrillPoint(cut) => text!("the point of {}'s {}", name, words::sized(cut)),
        SpotName::Cut(cut) => match &cut.cut {
            Cut::Thread { thread, .. } => text!("{}'s {}", name, bare(&thread.called())),
            _ => text!("{}'s {}", name, words::sized(cut)),
        },
        SpotName::Outside => text!(
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
    match part.face_at(spot) {
        Some(face) if face.end.is_none() => face.span,
        _ => words::span_of(part, spot.origin),
    }
}

/// The cut that made a surface.
pub(crate) fn feature(part: &Part, origin: Origin) -> Option<&Feature> {
    part.features.get(origin.feature()?)
}

fn bare(called: &str) -> &str {
    called.strip_prefix("the ").unwrap_or(called)
}
