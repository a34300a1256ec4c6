//! An outline as it lies on an axis that it shares with others.

use super::Placement;
use crate::outline::{Outline, OutlinePiece, Radii};

/// A part's outline in its place. Nothing is copied: a piece is laid when it is looked at, so that
/// a pen of many joints, each of which sees all its parts in other places, costs little.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PlacedOutline<'o> {
    outline: &'o Outline,
    place: Placement,
}

impl<'o> PlacedOutline<'o> {
    /// An outline in a place.
    pub(crate) fn new(outline: &'o Outline, place: Placement) -> Self {
        PlacedOutline { outline, place }
    }

    /// From where to where it lies on the axis, mm.
    pub(crate) fn reach(self) -> (f64, f64) {
        self.place.span((self.outline.from_z, self.outline.to_z))
    }

    /// Where it begins, mm.
    pub(crate) fn start_z(self) -> f64 {
        self.reach().0
    }

    /// Where it ends, mm.
    pub(crate) fn end_z(self) -> f64 {
        self.reach().1
    }

    /// How far the foremost of its pieces reaches, mm; less than anything where it has none.
    pub(crate) fn foremost_z(self) -> f64 {
        let ends = self.outline.pieces.iter();
        ends.map(|piece| self.place.span((piece.from_z, piece.to_z)).1)
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// Its radii, and where they lie.
    pub(crate) fn radii(self) -> (&'o Radii, Placement) {
        (&self.outline.radii, self.place)
    }

    /// Its pieces where they lie.
    pub(crate) fn pieces(self) -> impl Iterator<Item = OutlinePiece> + 'o {
        self.outline.pieces.iter().map(move |it| self.lay(it))
    }

    /// Those of its pieces that look towards larger `z`, or all others, their curves not laid yet.
    pub(crate) fn facing(self, up: bool) -> impl Iterator<Item = PlacedPiece<'o>> {
        let pieces = self.outline.pieces.iter();
        let looks = move |it: &&OutlinePiece| (it.faces_up != self.place.reversed) == up;
        pieces.filter(looks).map(move |piece| {
            let (from_z, to_z) = self.place.span((piece.from_z, piece.to_z));
            PlacedPiece {
                of: self,
                piece,
                from_z,
                to_z,
            }
        })
    }

    fn lay(self, piece: &OutlinePiece) -> OutlinePiece {
        let curve = match self.place.reversed {
            false => piece.curve.moved(self.place.offset_mm),
            true => piece.curve.reversed(self.place.offset_mm),
        };
        let (from_z, to_z) = self.place.span((piece.from_z, piece.to_z));
        OutlinePiece {
            curve,
            from_z,
            to_z,
            faces_up: piece.faces_up != self.place.reversed,
            reversed: piece.reversed != self.place.reversed,
            ..*piece
        }
    }
}

/// A piece of an outline and from where to where it lies on the axis, mm; most are passed by for that alone.
#[derive(Clone, Copy)]
pub(crate) struct PlacedPiece<'o> {
    of: PlacedOutline<'o>,
    piece: &'o OutlinePiece,
    pub(crate) from_z: f64,
    pub(crate) to_z: f64,
}

impl PlacedPiece<'_> {
    /// Over how much of the radius both lie, mm; less than nothing where they pass each other.
    pub(crate) fn shares_mm(&self, other: &PlacedPiece) -> f64 {
        let (one, other) = (self.piece, other.piece);
        one.most_r.min(other.most_r) - one.least_r.max(other.least_r)
    }

    /// The piece where it lies.
    pub(crate) fn laid(&self) -> OutlinePiece {
        self.of.lay(self.piece)
    }
}
