//! Threading tools have the time and the room they need.

use super::Lathe;
use quillet_geometry::Length;
use quillet_plan::{Operation, ThreadCut, Threading, Work};
use quillet_standards::thread::ThreadForm;

/// How far apart a hole is looked at, mm.
const LOOKED_AT: f64 = 0.05;
/// A wall under a die that needs no plug, mm.
const BEARS_A_DIE: f64 = 1.5;
/// What a die holder leaves room for over a pin, mm.
const HOLLOW: f64 = 3.0;

impl Lathe<'_> {
    /// What turns, turns at a number of the lathe; a single point has the time it takes to stop, by what
    /// the stock leaves it beyond full form.
    pub(super) fn check_speed(&mut self, operation: &Operation) {
        let set = operation.speed.as_ref().and_then(|it| it.set_rev_min);
        if let (Some(set), Some(speed)) = (set, &operation.speed) {
            let own = |(a, b): &(f64, f64)| *a <= set && set <= *b;
            if !speed.settings_rev_min.iter().any(own) {
                self.report(format!("the lathe does not turn at {set}"));
            }
        }
        let Work::Thread(cut) = &operation.work else {
            return;
        };
        let (Threading::SinglePoint, Some(set)) = (cut.method, set) else {
            return;
        };
        let seconds = if cut.inside { 2.0 } else { 1.0 };
        let travel = set * cut.thread.thread.lead_mm() * seconds / 60.0;
        let free = match cut.inside {
            true => self.runs_free_inside(cut, travel),
            false => self.runs_free_outside(cut, Length::mm(travel)),
        };
        if !free {
            self.report(format!(
                "{set} rev/min runs on by {travel:.2} before it is stopped"
            ));
        }
    }

    fn runs_free_outside(&self, cut: &ThreadCut, travel: Length) -> bool {
        let part = self.part();
        let (a, b) = (
            part.station(cut.end, cut.to),
            part.station(cut.end, cut.to + travel),
        );
        let (low, high) = (a.min(b), a.max(b));
        let root = cut.thread.thread.root_diameter().to_mm() / 2.0;
        low < self.crest.from
            || high > self.crest.to
            || self.crest.fattest(low, high) <= root + 1e-6
    }

    /// The point goes on cutting where the hole is narrower than the major diameter: e of DIN 76-1 and
    /// no further.
    fn runs_free_inside(&self, cut: &ThreadCut, travel: f64) -> bool {
        let form = &cut.thread.thread;
        let most = form.relief().map_or(0.0, |it| it.blind.normal.to_mm());
        let minor = form.minor_diameter().to_mm() / 2.0;
        let mut beyond = LOOKED_AT;
        while beyond < travel {
            let near = self.part().station(cut.end, cut.to + Length::mm(beyond));
            let next = self
                .part()
                .station(cut.end, cut.to + Length::mm(beyond + LOOKED_AT));
            let (low, high) = (near.min(next), near.max(next));
            let out = low < self.crest.from || high > self.crest.to;
            if beyond > most || !out && self.crest.narrowest(low, high) < minor - 1e-6 {
                return false;
            }
            beyond += LOOKED_AT;
        }
        true
    }

    /// A die comes over what stands out of the face, and does not crush what is thin.
    pub(super) fn check_die(&mut self, cut: &ThreadCut) {
        let form = &cut.thread.thread;
        let Some(plug) = self.plugged[cut.end.index()] else {
            if self.is_thin(cut, form) {
                self.report("nothing is in the thin tenon under the die");
            }
            return;
        };
        let made = &self.plan.mandrels[plug];
        let (out, passes) = (made.outside_dia(), form.root_diameter() - Length::mm(0.3));
        if out > passes {
            self.report(format!(
                "the die passes {passes}, and the plug is {out} outside"
            ));
        }
        if made.thread.is_none() && made.shank_length.to_mm() >= HOLLOW {
            self.report(format!("the pin stands out {}", made.shank_length));
        }
    }

    fn is_thin(&self, cut: &ThreadCut, form: &ThreadForm) -> bool {
        let part = self.part();
        let (a, b) = (
            part.station(cut.end, cut.from),
            part.station(cut.end, cut.to),
        );
        let hole = self.root.widest_hole(a.min(b), a.max(b));
        hole > 0.0 && form.root_diameter().to_mm() / 2.0 - hole < BEARS_A_DIE - 1e-6
    }
}
