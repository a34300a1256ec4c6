//! How the work is held.

use crate::MandrelId;
use quillet_geometry::Length;
use quillet_model::{ById, End, PieceId};

/// How the work is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Workholding {
    /// Not in the lathe: at the saw or the bench.
    Bench,
    /// Pieces of a glued blank, before it is whole.
    Pieces(PieceHold),
    /// Between centres.
    Centres,
    /// Gripped in a collet (or a chuck of that size) on uncut stock.
    Collet(Grip),
    /// On a mandrel.
    Mandrel(Mount),
    /// Joined with its mate, one part's centre nub gripped and the other part on the tail centre.
    Joined {
        /// The collet that grips the nub.
        collet: Length,
        /// What supports the far end of the two.
        tail: TailSupport,
    },
}

/// Pieces of a blank in a collet, or in a chuck with jaws where they are square.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PieceHold {
    /// The first of those glued so far.
    pub from: PieceId,
    /// The last of them: it stands free.
    pub to: PieceId,
    /// The one that is gripped.
    pub gripped: PieceId,
    /// Its diameter, or the side of its square.
    pub size: Length,
    /// How much of it is gripped.
    pub grip: Length,
    /// How far the rest stands out.
    pub overhang: Length,
    /// It is still on its rod, and sawn off afterwards.
    pub on_rod: bool,
}

impl PieceHold {
    /// All that are glued so far, of a blank's.
    pub fn pieces<T>(
        self,
        all: &ById<PieceId, T>,
    ) -> impl Iterator<Item = PieceId> + Clone + use<T> {
        all.ids()
            .filter(move |it| (self.from..=self.to).contains(it))
    }
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
    /// Which of the plan's.
    pub mandrel: MandrelId,
    /// The end of the work that is on it.
    pub end: End,
    /// What supports the other end.
    pub tail: TailSupport,
}

/// What supports the far end of work on a mandrel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TailSupport {
    /// Nothing: a tool comes to that end.
    Free,
    /// The tail centre, in the nub's own centre.
    Centre,
    /// A bull-nose centre in the plain mouth of the bore, whose cone clears what lies behind.
    BullNose,
    /// The tail centre in a plug, drawn among the mandrels: the cone would bruise a thread.
    Plug(MandrelId),
}
