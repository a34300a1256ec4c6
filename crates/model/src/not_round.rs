//! What keeps a part from being round: its cuts from the side, and its holes beside the axis.

use crate::SideId;
use quillet_geometry::envelope::smallest;
use quillet_geometry::overlap::{Cuts, counted_twice};
use quillet_geometry::section::{self, Apothem, Flats};
use quillet_geometry::side::{Body, Floor, SideCut as Opening};
use quillet_geometry::{Chain, Circle, Moments, Pattern, Tag};

/// The cuts of a part that no lathe turns, in millimetres from its first end; each with its
/// statement.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NotRound {
    /// Sets of flats.
    pub flats: Vec<(SideId, Flats)>,
    /// Holes and slots.
    pub openings: Vec<(SideId, Opening)>,
    /// Patterns.
    pub patterns: Vec<(SideId, Pattern)>,
    /// Holes on pitch circles, in the order of their statements.
    pub circles: Vec<Circle>,
    /// The outside as it is turned before all this, where there is any.
    pub turned: Option<Chain>,
}

impl NotRound {
    /// Whether the part is round after all.
    pub fn is_empty(&self) -> bool {
        self.outline_is_round() && self.openings.is_empty() && self.circles.is_empty()
    }

    /// Whether its outline is: nothing but openings and holes.
    pub fn outline_is_round(&self) -> bool {
        self.flats.is_empty() && self.patterns.is_empty()
    }

    /// The greatest radius round the turn at each station: what passes, touches and is drawn.
    pub fn high(&self, turned: &Chain, tag: impl Fn(SideId) -> Tag) -> Chain {
        let edges = self.flats.iter().filter(|(_, set)| set.count > 2);
        let cut = edges.flat_map(|(id, set)| set.high(turned, tag(*id)));
        least(turned, cut)
    }

    /// The least radius round the turn: what is left for walls. Where a cut opens into a room there
    /// is no wall, and the outline stays. `tag` names the statement of each piece.
    pub fn low(&self, turned: &Chain, tag: impl Fn(SideId) -> Tag) -> Chain {
        least(turned, self.floors(turned, &tag).map(|(_, floor)| floor))
    }

    /// What each cut leaves at its least radius round the turn where it opens into no room, with its
    /// statement.
    pub fn floors<'s>(
        &'s self,
        turned: &'s Chain,
        tag: &'s dyn Fn(SideId) -> Tag,
    ) -> impl Iterator<Item = (SideId, Chain)> + 's {
        let of = |id: SideId, floors: Vec<Chain>| floors.into_iter().map(move |it| (id, it));
        let flats = self.flats.iter();
        let flats = flats.flat_map(move |(id, set)| of(*id, set.low(turned, tag(*id))));
        let patterns = self.patterns.iter();
        let patterns = patterns.flat_map(move |(id, it)| of(*id, it.low(turned, tag(*id))));
        let blind = |it: &&(SideId, Opening)| matches!(it.1.floor, Floor::Plane(_));
        let blind = self.openings.iter().filter(blind);
        let blind = blind.flat_map(move |(id, it)| of(*id, it.low(turned, tag(*id))));
        flats.chain(patterns).chain(blind)
    }

    /// What all of them take from a region of the part, `outermost` where its outside is the part's.
    ///
    /// What two of them take is taken once.
    pub fn taken(&self, outer: &[Chain], inner: &[Chain], outermost: bool) -> Moments {
        let sets = self.flats.iter().map(|(_, set)| *set);
        // Inside, only what lies at a distance from the axis is where it is outside.
        let reaches = |set: &Flats| outermost || matches!(set.apothem, Apothem::Straight { .. });
        let sets: Vec<Flats> = sets.filter(reaches).collect();
        let body = Body {
            outside: outer,
            inside: inner,
            flats: &sets,
        };
        let flats = section::cut_away(outer, &sets);
        let openings = self.openings.iter().map(|(_, it)| it.removed(&body));
        let patterns = self.patterns.iter().filter(|_| outermost);
        let patterns = patterns.map(|(_, it)| it.removed(outer));
        let cuts = self.cuts(outer, outermost);
        let circles = cuts.circles.iter().map(Circle::removed);
        let each = flats + openings.chain(patterns).chain(circles).sum();
        each - counted_twice(&body, &cuts)
    }
}

impl NotRound {
    /// All but the flats, of a region with this outside; patterns only where that is the part's.
    fn cuts(&self, outer: &[Chain], outermost: bool) -> Cuts {
        let patterns = self.patterns.iter().filter(|_| outermost);
        let beside = |hole: &&Circle| {
            let [before, after] = hole.tips_mm;
            let (from, to) = (hole.from_mm - before, hole.to_mm + after);
            outer
                .iter()
                .any(|it| it.start().z < to && from < it.end().z)
        };
        Cuts {
            openings: self.openings.iter().map(|(_, it)| *it).collect(),
            patterns: patterns.map(|(_, it)| *it).collect(),
            circles: self.circles.iter().filter(beside).copied().collect(),
        }
    }
}

/// The least of an outside and of what is cut below it.
fn least(turned: &Chain, cut: impl Iterator<Item = Chain>) -> Chain {
    let mut all = vec![turned.clone()];
    all.extend(cut);
    if all.len() == 1 {
        return turned.clone();
    }
    let left = smallest(&all).into_iter().next();
    left.unwrap_or_else(|| turned.clone())
}
