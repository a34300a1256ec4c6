//! The sizes that a cut off the axis is written by.

use crate::{CircleHoles, SideCut, SideCutKind, SideDepth};
use quillet_geometry::Length;

/// A written size of a cut from the side, or of holes beside the axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SideSize {
    /// Where a cut from the side begins, or a hole's middle lies, from the first end; where holes beside
    /// the axis begin, from their end's face.
    From,
    /// Where it ends.
    To,
    /// Twice the distance of a flat from the axis; where it begins.
    Across,
    /// The same where it ends.
    AcrossAtEnd,
    /// The width of a slot.
    Wide,
    /// The diameter of a hole.
    Hole,
    /// How deep, below the outside; of holes beside the axis, from their end's face.
    Deep,
    /// The diameter of a pitch circle.
    On,
}

impl SideCut {
    /// The sizes that it is written by, in the order of its words.
    pub fn sizes(&self) -> Vec<(SideSize, Length)> {
        let deep = |depth: &SideDepth| match depth {
            SideDepth::To { deep, .. } => Some((SideSize::Deep, *deep)),
            SideDepth::Void | SideDepth::Through => None,
        };
        let [one, other] = match &self.kind {
            SideCutKind::Across { from_dia, to_dia } => {
                let end = Some((SideSize::AcrossAtEnd, *to_dia));
                [Some((SideSize::Across, *from_dia)), end]
            }
            SideCutKind::Deep(deep) | SideCutKind::Pattern { deep, .. } => {
                [Some((SideSize::Deep, *deep)), None]
            }
            SideCutKind::Sharp => [None, None],
            SideCutKind::Drill { dia, depth, .. } => [Some((SideSize::Hole, *dia)), deep(depth)],
            SideCutKind::Slot { width, depth } => [Some((SideSize::Wide, *width)), deep(depth)],
        };
        let (from, to) = (self.stretch.from, self.stretch.to);
        let to = (from != to).then_some((SideSize::To, to));
        let place = [Some((SideSize::From, from)), to];
        [one, other].into_iter().chain(place).flatten().collect()
    }
}

impl CircleHoles {
    /// The sizes that they are written by.
    pub fn sizes(&self) -> Vec<(SideSize, Length)> {
        let deep = (!self.through).then_some((SideSize::Deep, self.to));
        let from = self.from.is_positive();
        let from = from.then_some((SideSize::From, self.from));
        let across = [(SideSize::Hole, self.dia), (SideSize::On, self.on)];
        across.into_iter().chain(deep).chain(from).collect()
    }
}
