//! Cuts from the side and holes beside the axis, size by size.

use super::{ComparedSize, MeasuredAs, Pair};
use crate::words;
use quillet_geometry::{Length, Limits};
use quillet_model::{CircleId, SideCut, SideCutKind, SideDepth, SideId, SideSize};
use quillet_syntax::{Size, Span, text};

/// A size as it is drawn, and between what it is asked.
type Asked = (SideSize, Length, Limits);

impl Pair<'_> {
    pub(super) fn side(&self, id: SideId) -> Vec<ComparedSize> {
        let Some(is) = self.is.side(id) else {
            return Vec::new();
        };
        let of = text!("{} at {}", is.called(), Size::Written(is.stretch.from));
        let compare = |(of_size, measured, asked): (Asked, Length, Span)| {
            let (size, drawn, limits) = of_size;
            self.size(asked, of.clone(), (drawn, measured), limits, how(size))
        };
        let made = is.sizes();
        let pairs = self.asked.side(id).into_iter().filter_map(|asked| {
            let measured = measured(&made, asked.0)?;
            Some((asked, measured, said_at(is, asked.0)))
        });
        pairs.map(compare).collect()
    }

    pub(super) fn beside(&self, id: CircleId) -> Vec<ComparedSize> {
        let Some(is) = self.is.circle(id) else {
            return Vec::new();
        };
        let made = is.sizes();
        let sizes = self.asked.beside(id).into_iter().filter_map(|asked| {
            let (size, drawn, limits) = asked;
            let at = match size {
                SideSize::On => is.on_span,
                _ => is.span,
            };
            let how = match size {
                SideSize::From => MeasuredAs::Deep,
                size => how(size),
            };
            let of = words::holes(self.was, id);
            Some(self.size(at, of, (drawn, measured(&made, size)?), limits, how))
        });
        sizes.collect()
    }
}

fn measured(made: &[(SideSize, Length)], size: SideSize) -> Option<Length> {
    made.iter().find(|it| it.0 == size).map(|it| it.1)
}

fn how(size: SideSize) -> MeasuredAs {
    match size {
        SideSize::From | SideSize::To => MeasuredAs::Place,
        SideSize::Across | SideSize::AcrossAtEnd => MeasuredAs::Across,
        SideSize::Wide => MeasuredAs::Wide,
        SideSize::Hole => MeasuredAs::Bored,
        SideSize::Deep => MeasuredAs::Deep,
        SideSize::On => MeasuredAs::Circle,
    }
}

/// Where a cut from the side says a size.
fn said_at(cut: &SideCut, size: SideSize) -> Span {
    match (size, &cut.kind) {
        (SideSize::From | SideSize::To, _) => cut.stretch.span,
        (
            SideSize::Deep,
            SideCutKind::Drill {
                depth: SideDepth::To { span, .. },
                ..
            }
            | SideCutKind::Slot {
                depth: SideDepth::To { span, .. },
                ..
            },
        ) => *span,
        _ => cut.size_span,
    }
}
