//! What is asked of the sizes of cuts from the side, and of holes beside the axis: as the hand keeps them,
//! flats by what calipers read.

use super::AskedLimits;
use quillet_geometry::{Length, Limits};
use quillet_model::{AcrossFlats, CircleId, SideCutKind, SideId, SideSize};
use quillet_syntax::ast::ToleranceKind;
use std::f64::consts::PI;

impl AskedLimits<'_> {
    /// Each size that a cut from the side is written by, as drawn, and between what; none of a place that
    /// is an end of the part.
    pub fn side(&self, id: SideId) -> Vec<(SideSize, Length, Limits)> {
        let Some(cut) = self.part.side(id) else {
            return Vec::new();
        };
        let tapers =
            matches!(cut.kind, SideCutKind::Across { from_dia, to_dia } if from_dia != to_dia);
        let sizes = cut.sizes().into_iter().filter_map(|(size, drawn)| {
            let limits = match size {
                SideSize::From | SideSize::To => {
                    let at_end = drawn == Length::ZERO || drawn == self.part.length;
                    (!at_end).then(|| self.shoulder(drawn))?
                }
                SideSize::AcrossAtEnd if !tapers => return None,
                SideSize::Across => self.across(id, drawn, 0),
                SideSize::AcrossAtEnd => self.across(id, drawn, 1),
                SideSize::Wide => self.either(ToleranceKind::Bore, drawn),
                SideSize::Hole => self.either(ToleranceKind::Drill, drawn),
                SideSize::On => self.turned(drawn),
                SideSize::Deep => match cut.kind {
                    SideCutKind::Deep(_) => self.flat_deep(id, drawn),
                    SideCutKind::Pattern { .. } => self.shoulder(drawn),
                    _ => self.either(ToleranceKind::Depth, drawn),
                },
            };
            Some((size, drawn, limits))
        });
        sizes.collect()
    }

    /// The same of holes beside the axis.
    pub fn beside(&self, id: CircleId) -> Vec<(SideSize, Length, Limits)> {
        let Some(holes) = self.part.circle(id) else {
            return Vec::new();
        };
        let kept = match holes.point {
            Some(_) => ToleranceKind::Drill,
            None => ToleranceKind::Bore,
        };
        let sizes = holes.sizes().into_iter().map(|(size, drawn)| {
            let limits = match size {
                SideSize::Hole => self.either(kept, drawn),
                SideSize::On => self.turned(drawn),
                _ => self.either(ToleranceKind::Depth, drawn),
            };
            (size, drawn, limits)
        });
        sizes.collect()
    }

    /// A set of flats as calipers read it: across two of an even number, else from a flat to what lies
    /// opposite; none where it cuts nothing.
    pub fn flats(&self, id: SideId) -> Option<AcrossFlats> {
        let sets = self.part.profiles.as_ref()?.across_flats();
        sets.into_iter().find(|it| it.side == id)
    }

    /// Across flats where they begin, or end, from what calipers read there.
    fn across(&self, id: SideId, drawn: Length, end: usize) -> Limits {
        self.by_reading(id, drawn, end, 1.0)
    }

    /// How deep flats are from what calipers read where they begin: across is less by twice as much.
    fn flat_deep(&self, id: SideId, drawn: Length) -> Limits {
        self.by_reading(id, drawn, 0, 2.0)
    }

    fn by_reading(&self, id: SideId, drawn: Length, end: usize, across: f64) -> Limits {
        let Some(set) = self.flats(id) else {
            return self.turned(drawn);
        };
        let read = Length::mm(set.calipers_mm()[end]);
        let kept = self.hand.keeps(ToleranceKind::Dia, read);
        let within = Length::mm(kept.to_mm() / (moves(&set, end) * across));
        Limits::new(drawn - within, drawn + within)
    }
}

/// By how much what calipers read grows with a set's across, at one of its ends.
fn moves(set: &AcrossFlats, end: usize) -> f64 {
    if set.count.is_multiple_of(2) {
        return 1.0;
    }
    let (across, corners) = (set.across_mm[end], set.corners_mm[end]);
    let meeting = 1.0 / (PI / f64::from(set.count)).cos();
    // Where the flats do not meet, the round stands opposite.
    let meet = set.count > 2 && (across * meeting - corners).abs() < MEET_MM;
    let corner = if meet { meeting } else { 0.0 };
    (1.0 + corner) / 2.0
}

/// Corners this near to where the flats meet are there, mm.
const MEET_MM: f64 = 1e-6;
