//! What holds the work is there, and out of the tool's way.

use super::Lathe;
use quillet_geometry::Length;
use quillet_model::{End, Part, SideCutKind, SideDepth};
use quillet_plan::{MandrelKind, Mount, TailSupport, Work, Workholding};

impl Lathe<'_> {
    pub(super) fn check_hold(&mut self, work: &Work) {
        match self.hold {
            Workholding::Collet(grip) => {
                let (from, to) = (grip.from, grip.to);
                if !self.root.is_cylinder(from, to, self.route.blank.dia) {
                    self.report(format!(
                        "the collet grips {from} to {to}, which is no longer stock"
                    ));
                }
                if let Some((a, b)) = self.reach_outside(work)
                    && a < to
                    && from < b
                {
                    self.report(format!(
                        "the tool at {a} to {b} meets the collet at {from} to {to}"
                    ));
                }
            }
            Workholding::Mandrel(mount) => self.check_mount(mount, work),
            Workholding::Joined { collet, tail } => self.check_joined(collet, tail),
            _ => {}
        }
    }

    fn check_mount(&mut self, mount: Mount, work: &Work) {
        let kind = self.plan.mandrels[mount.mandrel].kind;
        let inside = match kind {
            MandrelKind::Male => Some(true),
            MandrelKind::Female => Some(false),
            _ => None,
        };
        let own = |inside| self.threaded.contains(&(mount.end, inside));
        let lined = |inside: bool| {
            let threads = |it: &&Part| {
                it.features.iter().any(|cut| {
                    let side = cut.thread().map(|it| it.1);
                    side == Some(quillet_syntax::ast::Side::Inside)
                })
            };
            inside && self.joined.iter().any(threads)
        };
        let cut = inside.is_none_or(|inside| own(inside) || lined(inside));
        if !cut || !self.faced[mount.end.index()] {
            self.report("the end on the mandrel is not cut yet");
        }
        self.check_spigot(mount);
        let far = mount.end.other();
        let centred = match mount.tail {
            TailSupport::Free => true,
            TailSupport::Centre => self.centred[far.index()],
            TailSupport::BullNose | TailSupport::Plug(_) => self.crest.opening(far) > 0.0,
        };
        if !centred {
            self.report("the tail centre finds no centre");
        }
        if mount.tail == TailSupport::BullNose && self.cone_meets_thread(far) {
            self.report("the tail centre's cone bruises the thread");
        }
        let from_far = self.comes_from(work) == Some(far) || self.opens(work, far);
        if mount.tail != TailSupport::Free && from_far {
            self.report("the tail centre is in the way");
        }
        if self.end_of(work) == Some(mount.end) {
            self.report("the mandrel is in the way");
        }
    }

    /// Whether a cut from the side runs out of the wall at an end.
    fn opens(&self, work: &Work, end: End) -> bool {
        let part = self.part();
        let Work::Side { cut, .. } = work else {
            return false;
        };
        let Some(cut) = part.side(*cut) else {
            return false;
        };
        let reaches = match end {
            End::First => cut.stretch.from == Length::ZERO,
            End::Second => cut.stretch.to == part.length,
        };
        let deep = match cut.kind {
            SideCutKind::Slot { depth, .. } | SideCutKind::Drill { depth, .. } => depth,
            _ => return false,
        };
        reaches && !matches!(deep, SideDepth::To { .. })
    }

    /// A spigot goes into a hole that is there, as wide and as deep.
    fn check_spigot(&mut self, mount: Mount) {
        let made = &self.plan.mandrels[mount.mandrel];
        let (Some(spigot), true) = (made.front_spigot, made.kind != MandrelKind::Female) else {
            return;
        };
        let behind = [made.root_spigot, made.relief].into_iter().flatten();
        let before: Length = behind.map(|it| it.length).sum::<Length>() + made.thread_length;
        let part = self.part();
        let (a, b) = (
            part.station(mount.end, before),
            part.station(mount.end, before + spigot.length),
        );
        if self.crest.narrowest(a.min(b), a.max(b)) < spigot.dia.to_mm() / 2.0 - 1e-6 {
            self.report(format!("no hole takes the spigot of {}", spigot.dia));
        }
    }

    /// Of two parts turned joined one is gripped by its nub, and the other bears the tail centre, in its own
    /// nub or where its end is open: both stand.
    fn check_joined(&mut self, collet: Length, tail: TailSupport) {
        let Some(nub) = self.route.blank.nub else {
            if tail == TailSupport::Centre {
                self.report("there is no nub to hold");
            }
            return;
        };
        let (from, to) = match nub.end {
            End::First => (self.crest.from, Length::ZERO),
            End::Second => (self.part().length, self.crest.to),
        };
        let stands = to - from >= nub.length && self.root.is_cylinder(from, to, nub.dia);
        if !stands {
            self.report("the nub is turned away");
        } else if nub.dia != collet && !self.centred[nub.end.index()] {
            self.report("the tail centre finds no centre");
        }
    }

    /// Whether a 60° cone standing on the mouth of a hole meets crests within it.
    fn cone_meets_thread(&self, end: End) -> bool {
        let part = self.part();
        let mouth = self.crest.opening(end) * 2.0;
        part.features.with_ids().any(|(index, it)| {
            let Some((thread, quillet_syntax::ast::Side::Inside)) = it.thread() else {
                return false;
            };
            let minor = thread.thread.minor_diameter().to_mm();
            let depth = part
                .full_form(index, end)
                .map_or(it.from, |it| it.0)
                .to_mm();
            let cone = mouth - 2.0 * depth * 30.0_f64.to_radians().tan();
            it.end == end && (mouth <= minor + 1e-6 || cone > minor)
        })
    }
}
