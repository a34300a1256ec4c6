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

impl Mandrel {
    /// How far it stands out past its shoulder.
    pub fn reach(&self) -> Length {
        let spigot = |it: &Option<Fitted>| it.map_or(Length::ZERO, |it| it.length);
        self.thread_length + spigot(&self.root_spigot) + spigot(&self.front_spigot)
    }

    /// The least diameter of what stands out past its shoulder.
    pub fn least_dia(&self) -> Length {
        let root = self.thread.as_ref().map(|it| it.thread.root_diameter());
        let spigots = [self.front_spigot, self.root_spigot].map(|it| it.map(|it| it.dia));
        root.into_iter()
            .chain(spigots.into_iter().flatten())
            .min()
            .unwrap_or(self.shoulder)
    }

    /// The turns from where a male mandrel catches, in an inside thread that begins so far from the
    /// face, until its shoulder bears; none where it has no thread or never reaches.
    pub(crate) fn turns_in(&self, begins: Length) -> Option<f64> {
        let form = &self.thread.as_ref()?.thread;
        // The spigot at the shoulder stops a hair short of the thread; so does what it stands on.
        let ahead = self.root_spigot.map_or(Length::ZERO, |it| it.length);
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
            && self.bore == other.bore
            && self.shoulder == other.shoulder
    }
}
