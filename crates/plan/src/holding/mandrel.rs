//! Mandrels and plugs: copies of the mate's end, cut with the taps and dies at hand.

use quillet_geometry::Length;
use quillet_model::{End, ThreadDef};
use std::sync::Arc;

/// A mandrel or plug to be made.
///
/// Shoulder and spigot locate the work, the thread only pulls.
#[derive(Clone, Debug)]
pub struct Mandrel {
    /// What it is.
    pub kind: MandrelKind,
    /// The end it copies: a part and its end, by name.
    pub copy_of: Option<(Arc<str>, Arc<str>)>,
    /// The thread it bears, cut with the tap or die at hand.
    pub thread: Option<Arc<ThreadDef>>,
    /// How far its thread goes.
    pub thread_length: Length,
    /// The diameter of the shoulder that the work's face comes up to; below the finished
    /// outside, so that tools run clear.
    pub shoulder: Length,
    /// A relief at the shoulder, below the thread's root and as long as its die leaves
    /// incomplete: without it the shoulder never bears.
    pub relief: Option<Fitted>,
    /// A spigot at the shoulder, in the plain mouth of the work's bore.
    pub root_spigot: Option<Fitted>,
    /// A spigot ahead of the thread, in the plain bore beyond it; the whole of it where there
    /// is no thread.
    pub front_spigot: Option<Fitted>,
    /// A female mandrel's bore: it clears what stands in it.
    pub bore: Option<Fitted>,
    /// What the collet grips.
    pub shank: Length,
    /// How much of it.
    pub shank_length: Length,
    /// The stock it is turned from.
    pub stock: Length,
    /// No shank and no shoulder: a stud with a slot, screwed in below the face.
    pub headless: bool,
    /// It has a centre in its end, for the tail centre.
    pub centred: bool,
    /// What passes the die that comes over it while it is in the work: no more may stand out.
    pub under_die: Option<Length>,
    /// The ring on which the work's own shoulder bears, a side, where it is a female one; zero or less
    /// where the work is no fatter than its thread.
    pub bearing: Option<Length>,
    /// The ring it bears with is as wide as the work, or wider: make it of brass, for the last cut
    /// may touch it.
    pub touched: bool,
    /// The right-hand turn tightens it; a left-hand thread unscrews in forward rotation.
    pub left_hand: bool,
    /// The ends it serves: part by name and end, in the order of use.
    pub serves: Vec<(Arc<str>, End)>,
}

/// A diameter over a length, fitted to the hole as measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fitted {
    /// The size as drawn; turn it to the hole as measured.
    pub dia: Length,
    /// Its length.
    pub length: Length,
}

/// What a mandrel is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MandrelKind {
    /// A male thread, as the mate's tenon.
    Male,
    /// A female thread, as the mate's mouth.
    Female,
    /// A plain spigot, the work pushed on and the tail centre up.
    Spigot,
    /// Stepped, the ring clamped by a washer and the tail centre.
    Stepped,
    /// A plug that keeps a thin tenon round while it is threaded.
    Plug,
}

/// A step of making a mandrel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MandrelStep {
    /// Its shank first, for all else is turned in the collet that grips it.
    Shank,
    /// A spigot that goes into the work.
    Spigot,
    /// The cylinder its thread is cut on.
    Land,
    /// The relief behind the thread.
    Relief,
    /// The shoulder, or the nose of a female one, faced square.
    Shoulder,
    /// The hole of a female one.
    Hole,
    /// The thread.
    Thread,
    /// A centre in its end.
    Centre,
    /// A slot for a screwdriver.
    Slot,
    /// A mark on it and one on the collet, to find the same place again.
    Mark,
}

impl Mandrel {
    /// How it is made, in order: the shank, and then all the rest in the collet that grips it, so that
    /// it runs as true as that.
    pub fn steps(&self) -> Vec<MandrelStep> {
        use MandrelStep::*;
        let threaded = self.thread.is_some();
        let female = self.kind == MandrelKind::Female;
        let spigot = self.root_spigot.is_some() || self.front_spigot.is_some();
        let each = [
            (Shank, self.shank_length.is_positive()),
            (Shoulder, self.shoulder.is_positive()),
            (Hole, female),
            (Spigot, spigot),
            (Land, threaded && !female),
            (Relief, self.relief.is_some()),
            (Thread, threaded),
            (Centre, self.centred),
            (Slot, self.headless),
            (Mark, self.shank_length.is_positive() && !self.centred),
        ];
        let wanted = each.into_iter().filter(|it| it.1);
        wanted.map(|it| it.0).collect()
    }

    /// The fattest of what stands out of the work's face, the shoulder and the shank; nothing of a
    /// headless stud does.
    pub fn outside_dia(&self) -> Length {
        match self.headless {
            true => Length::ZERO,
            false => self.shoulder.max(self.shank),
        }
    }

    /// How far it stands out past its shoulder.
    pub fn reach(&self) -> Length {
        let spigot = |it: &Option<Fitted>| it.map_or(Length::ZERO, |it| it.length);
        let behind = spigot(&self.root_spigot) + spigot(&self.relief);
        self.thread_length + behind + spigot(&self.front_spigot)
    }

    /// The least diameter of what stands out past its shoulder.
    pub fn least_dia(&self) -> Length {
        let root = self.thread.as_ref().map(|it| it.thread.root_diameter());
        let spigots =
            [self.front_spigot, self.root_spigot, self.relief].map(|it| it.map(|it| it.dia));
        root.into_iter()
            .chain(spigots.into_iter().flatten())
            .min()
            .unwrap_or(self.shoulder)
    }

    /// The turns from where a male mandrel catches, in an inside thread that begins so far from the
    /// face, until its shoulder bears; none where it has no thread or never reaches.
    pub(crate) fn turns_in(&self, begins: Length) -> Option<f64> {
        let form = &self.thread.as_ref()?.thread;
        let behind = [self.root_spigot, self.relief].into_iter().flatten();
        let ahead: Length = behind.map(|it| it.length).sum();
        let travel = ahead + self.thread_length - begins;
        travel
            .is_positive()
            .then(|| travel.to_mm() / form.lead_mm())
    }

    /// Whether another does the same work.
    pub(crate) fn is_like(&self, other: &Mandrel) -> bool {
        let threads = match (&self.thread, &other.thread) {
            (Some(a), Some(b)) => a.thread.mates_with(&b.thread),
            (None, None) => true,
            _ => false,
        };
        threads
            && self.kind == other.kind
            && self.root_spigot == other.root_spigot
            && self.front_spigot == other.front_spigot
            && self.relief == other.relief
            && (self.headless, self.centred) == (other.headless, other.centred)
            && self.bore == other.bore
            && self.shoulder == other.shoulder
    }
}
