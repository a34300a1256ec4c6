//! How the work is held.

use quillet_geometry::Length;
use quillet_model::End;

/// How the work is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hold {
    /// Not in the lathe: at the saw or the bench.
    Bench,
    /// One piece of a glued blank by itself.
    Piece(usize),
    /// Between centres.
    Centres,
    /// Gripped in a collet (or a chuck of that size) on uncut stock.
    Collet(Grip),
    /// On a mandrel.
    Mandrel(Mount),
    /// Joined with its mate, one centre nub gripped and the other on the tail centre.
    Nubs,
}

/// A grip on stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grip {
    /// The diameter gripped.
    pub dia: Length,
    /// The end that stands out of the collet.
    pub free: End,
    /// The stations gripped, lower first.
    pub from: Length,
    /// The other one.
    pub to: Length,
    /// How far the work stands out of it.
    pub overhang: Length,
}

impl Grip {
    /// How much is gripped.
    pub fn length(&self) -> Length {
        self.to - self.from
    }
}

/// Work on a mandrel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mount {
    /// An index into `Plan::mandrels`.
    pub mandrel: usize,
    /// The end of the work that is on it.
    pub end: End,
    /// The tail centre is up at the other end.
    pub tail_centre: bool,
}
