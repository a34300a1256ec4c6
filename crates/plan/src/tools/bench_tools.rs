//! What the bench has for a job.

use crate::{PlanProblem, Threading, Tool};
use quillet_geometry::Length;
use quillet_model::{Bench, BenchDrill, BenchThreading, SideId};
use quillet_standards::drill::jobber;
use quillet_standards::thread::ThreadForm;

/// The tools at hand; without a bench nothing is assumed owned.
#[derive(Clone, Copy, Debug)]
pub(crate) struct BenchTools<'b> {
    pub(crate) bench: Option<&'b Bench>,
}

/// Within this a drill is the drill asked for.
const SAME: Length = Length::from_nm(5_000);

/// A bushing this near gives the tenon asked for.
const BUSHING: Length = Length::from_nm(30_000);

/// A collet closes on stock this much under its size (common practice, no published source).
const COLLET_CLOSES: Length = Length::from_nm(500_000);

impl<'b> BenchTools<'b> {
    pub(crate) fn drill(self, dia: Length) -> Option<&'b BenchDrill> {
        self.drills(dia).first()
    }

    /// All drills of a size; a bench has them in order.
    fn drills(self, dia: Length) -> &'b [BenchDrill] {
        let drills = self.bench.map_or(&[][..], |it| &it.drills);
        let from = drills.partition_point(|it| it.dia < dia - SAME);
        let to = drills.partition_point(|it| it.dia <= dia + SAME);
        &drills[from..to]
    }

    /// Whether the bench lists drills or reamers at all; one that does not says nothing of them.
    pub(crate) fn lists_drills(self) -> bool {
        self.bench
            .is_some_and(|it| !it.drills.is_empty() || !it.reamers.is_empty())
    }

    pub(crate) fn has_flat(self, dia: Length) -> bool {
        let same = |own: &Length| (*own - dia).abs() <= SAME;
        self.bench.is_some_and(|it| it.flats.iter().any(same))
    }

    /// Whether it says by what flat bottoms are cut: flat drills, or boring bars.
    pub(crate) fn lists_flats(self) -> bool {
        self.bench
            .is_some_and(|it| !it.flats.is_empty() || !it.boring.is_empty())
    }

    /// Whether the spindle can be locked at so many places, evenly round. A bench that lists no
    /// stops says nothing of them.
    pub(crate) fn stops_at(self, places: u32) -> bool {
        let stops = self.bench.map_or(&[][..], |it| &it.index);
        places < 2 || stops.is_empty() || stops.iter().any(|it| it.is_multiple_of(places))
    }

    /// What is said of a slot that no cutter on the bench is as wide as; nothing where the bench
    /// lists none.
    pub(crate) fn no_cutter(self, cut: SideId, wanted: Length) -> Option<PlanProblem> {
        let mut widths = self.bench?.cutters.clone();
        widths.sort_unstable();
        let has = widths.iter().any(|own| (*own - wanted).abs() <= SAME);
        (!widths.is_empty() && !has).then(|| PlanProblem::NoCutter {
            cut,
            wanted,
            below: widths.iter().copied().rfind(|own| *own < wanted),
            above: widths.iter().copied().find(|own| *own > wanted),
        })
    }

    /// Whether it lists taps or dies at all.
    pub(crate) fn lists_threading(self) -> bool {
        self.bench
            .is_some_and(|it| !it.taps.is_empty() || !it.dies.is_empty())
    }

    /// The largest drill of at most this size; without a bench, just this size.
    pub(crate) fn drill_up_to(self, dia: Length) -> Option<Length> {
        match self.bench {
            Some(bench) if !bench.drills.is_empty() => bench
                .drills
                .iter()
                .map(|drill| drill.dia)
                .rfind(|it| *it <= dia),
            _ => Some(dia),
        }
    }

    pub(crate) fn has_reamer(self, dia: Length) -> bool {
        self.bench
            .is_some_and(|it| it.reamers.iter().any(|own| (*own - dia).abs() <= SAME))
    }

    /// A boring bar that enters a hole and reaches its bottom.
    pub(crate) fn bar(self, hole: Length, depth: Length) -> Option<Tool> {
        let fits = |bar: &&quillet_model::BoringBar| {
            bar.enters <= hole && bar.reach.is_none_or(|reach| depth <= reach)
        };
        let bar = self.bench?.boring.iter().rfind(fits)?;
        Some(Tool::BoringBar { enters: bar.enters })
    }

    pub(crate) fn tap(self, thread: &ThreadForm) -> Option<&'b BenchThreading> {
        self.bench?
            .taps
            .iter()
            .find(|it| it.thread.thread.mates_with(thread))
    }

    pub(crate) fn die(self, thread: &ThreadForm) -> Option<&'b BenchThreading> {
        self.bench?
            .dies
            .iter()
            .find(|it| it.thread.thread.mates_with(thread))
    }

    pub(crate) fn screwcutting(self) -> bool {
        self.bench
            .and_then(|it| it.lathe.as_ref())
            .is_some_and(|lathe| lathe.screwcutting)
    }

    /// How a thread is cut here: by tap or die where one is at hand, else by a single point
    /// where the lathe can, else by the tap or die that is to be bought.
    pub(crate) fn threading(self, thread: &ThreadForm, inside: bool) -> Threading {
        let (owned, by_hand) = match inside {
            true => (self.tap(thread).is_some(), Threading::Tap),
            false => (self.die(thread).is_some(), Threading::Die),
        };
        match owned || !self.screwcutting() {
            true => by_hand,
            false => Threading::SinglePoint,
        }
    }

    /// The collet that grips round stock of a size; none where the bench says none.
    pub(crate) fn collet(self, stock: Length) -> Option<Length> {
        let collets = &self.bench?.collets;
        collets
            .iter()
            .copied()
            .find(|it| stock <= *it && *it - COLLET_CLOSES <= stock)
    }

    /// Whether the bench lists collets at all.
    pub(crate) fn lists_collets(self) -> bool {
        self.bench.is_some_and(|it| !it.collets.is_empty())
    }

    /// The largest collet from one size to another.
    pub(crate) fn collet_within(self, least: Length, most: Length) -> Option<Length> {
        let collets = &self.bench?.collets;
        collets
            .iter()
            .copied()
            .rfind(|it| least <= *it && *it <= most)
    }

    /// The bushing that gives a tenon of this size.
    pub(crate) fn bushing(self, dia: Length) -> Option<Length> {
        let near = |own: &Length| (*own - dia).abs();
        let bushings = self.bench?.bushings.iter().copied();
        bushings.filter(|own| near(own) <= BUSHING).min_by_key(near)
    }

    pub(crate) fn lists_bushings(self) -> bool {
        self.bench.is_some_and(|it| !it.bushings.is_empty())
    }

    pub(crate) fn travel(self) -> Option<Length> {
        self.bench?.lathe.as_ref()?.travel
    }

    pub(crate) fn spindle_bore(self) -> Option<Length> {
        self.bench?.lathe.as_ref()?.bore
    }

    /// How deep the longest drill of this size goes: as the bench says, else the flutes of a
    /// jobber drill (ISO 235) less one diameter of room for chips (common practice, no published
    /// source).
    pub(crate) fn drill_reach(self, dia: Length) -> Option<Length> {
        let jobber = jobber(dia)
            .and_then(|drill| drill.flute())
            .map(|flute| flute - dia);
        let own = self.drills(dia).iter();
        own.filter_map(|drill| drill.reach.or(jobber)).max()
    }
}
