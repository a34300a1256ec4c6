//! What a hole that is made asks of a surface that goes into it.

use super::AskedLimits;
use crate::made::suit::suited;
use quillet_geometry::{Length, Limits};
use quillet_model::{Cut, CutId, Origin, PartId, Pen, StationId};
use std::sync::Arc;

/// Between what a surface is to come out to suit a hole that is made.
#[derive(Clone, Debug, PartialEq)]
pub struct AskedToSuit {
    /// The limits.
    pub limits: Limits,
    /// The part that has the hole, and the hole as it came out.
    pub mate: Arc<str>,
    /// Diameter.
    pub hole: Length,
}

impl AskedLimits<'_> {
    /// With what the holes ask that are made of one of the pen.
    pub fn suiting(mut self, drawn: &Pen, made: &Pen, part: PartId) -> Self {
        if let Some(what) = made.made.as_deref() {
            self.suits = suited(drawn, made, what, part);
        }
        self
    }

    /// What is asked of a tenon to suit; none where its hole is not made. A thread keeps the limits of its
    /// thread, and what only has to pass is asked nothing.
    pub fn tenon_to_suit(&self, id: CutId) -> Option<AskedToSuit> {
        let cut = self.part.features.get(id)?;
        let plain = matches!(cut.cut, Cut::Tenon { .. })
            && self.part.land(cut.end, cut.from, cut.to).is_none();
        self.to_suit(|it| plain && it == Origin::Feature(id))
    }

    /// What is asked of the outside to suit at a station of it.
    pub fn outside_to_suit(&self, station: StationId) -> Option<AskedToSuit> {
        self.to_suit(|it| match it {
            Origin::Outside(to) => to == station || to.before() == Some(station),
            _ => false,
        })
    }

    fn to_suit(&self, is: impl Fn(Origin) -> bool) -> Option<AskedToSuit> {
        let suit = self.suits.iter().find(|it| is(it.origin))?;
        Some(AskedToSuit {
            limits: suit.limits(&self.hand),
            mate: suit.mate.clone(),
            hole: suit.hole,
        })
    }
}
