//! Puts tasks in order: of those whose needs are met the one that practice puts first, taking
//! hold of the work anew wherever the tool cannot come to it otherwise.

use crate::holding::make_mandrel::mandrel;
use crate::holding::mandrel_set::MandrelSet;
use crate::holding::open_tasks::OpenTasks;
use crate::holding::tail::open_mouth;
use crate::id::TaskId;
use crate::tasks::blank::{CLEAR, FACING, GRIPPED_NUB_DIA, LEAST_GRIP, NUB_LENGTH, PARTING};
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::mate::Mates;
use crate::tasks::task::{Access, Task, Tasks};
use crate::tools::bench_tools::BenchTools;
use crate::{
    Blank, Grip, MandrelKind, Mount, PieceHold, PlanProblem, Strategy, TailSupport, Unschedulable,
    Work, Workholding,
};
use quillet_geometry::Length;
use quillet_model::{ById, End, PieceId};

/// A part at the lathe, as far as it has been cut.
pub(crate) struct WorkState<'a, 'p, 'b> {
    pub(crate) feature_map: &'a FeatureMap<'p>,
    pub(crate) strategy: Strategy,
    pub(crate) blank: &'a Blank,
    pub(crate) mates: &'a Mates,
    pub(crate) bench_tools: BenchTools<'b>,
    hold: Workholding,
    /// Where the outside is no longer stock, stations.
    turned: Vec<(Length, Length)>,
    /// The blank's ends as they are now, stations.
    pub(crate) now: [Length; 2],
    done: ById<TaskId, bool>,
    open: OpenTasks,
}

/// What comes next: a hold to take, or a task to do in the hold there is.
pub(crate) enum ScheduleStep {
    Take(Workholding),
    Do(TaskId),
}

/// A grip shorter than this is none at all.
const NO_GRIP: Length = Length::from_nm(8_000_000);
/// A collet's own length.
const COLLET_LENGTH: Length = Length::from_nm(30_000_000);

impl<'a, 'p, 'b> WorkState<'a, 'p, 'b> {
    pub(crate) fn new(
        feature_map: &'a FeatureMap<'p>,
        strategy: Strategy,
        blank: &'a Blank,
        mates: &'a Mates,
        bench_tools: BenchTools<'b>,
        tasks: &Tasks,
        turned: Vec<(Length, Length)>,
    ) -> Self {
        WorkState {
            feature_map,
            strategy,
            blank,
            mates,
            bench_tools,
            hold: Workholding::Bench,
            turned,
            now: [blank.from, blank.to],
            done: tasks.0.map(|_| false),
            open: OpenTasks::of(tasks),
        }
    }

    /// What comes next; none when all is done or nothing more can be.
    pub(crate) fn next(
        &mut self,
        tasks: &Tasks,
        mandrel_set: &mut MandrelSet,
        problems: &mut Vec<PlanProblem>,
    ) -> Option<ScheduleStep> {
        for index in self.open.in_order() {
            let access = tasks.0[index].access;
            if self.provides(access) {
                return Some(ScheduleStep::Do(index));
            }
            if let Some(hold) = self.establish(access, tasks, mandrel_set) {
                self.short_grip(hold, problems);
                self.hold = hold;
                return Some(ScheduleStep::Take(hold));
            }
        }
        let stuck = tasks.0.ids().find(|index| !self.done[*index])?;
        let first = self.open.in_order().next();
        let task = &tasks.0[first.unwrap_or(stuck)];
        let why = match (first, task.access) {
            (Some(_), Access::End(end)) => Unschedulable::NothingToHold { end },
            (Some(_), _) => Unschedulable::NothingToHold {
                end: self.strategy.first,
            },
            (None, _) => Unschedulable::Circle,
        };
        problems.push(PlanProblem::NoOrder {
            feature: task.features.first().copied(),
            why,
        });
        None
    }

    pub(crate) fn hold(&self) -> Workholding {
        self.hold
    }

    /// Records a task as done, and what it leaves of the stock.
    pub(crate) fn finish(&mut self, index: TaskId, tasks: &Tasks) {
        self.done[index] = true;
        self.open.finish(index, tasks);
        let part = self.feature_map.part;
        let Some(work) = tasks.0[index].work() else {
            return;
        };
        match work {
            Work::Face { end, to } | Work::PartOff { end, at: to, .. } => {
                self.now[end.index()] = *to;
            }
            Work::RemoveNub { end, .. } => {
                self.now[end.index()] = part.station(*end, Length::ZERO);
            }
            Work::Turn(cut) => {
                let (a, b) = (
                    part.station(cut.end, cut.from),
                    part.station(cut.end, cut.to),
                );
                self.turned.push((a.min(b), a.max(b)));
            }
            Work::Outside(pass) => self.turned.extend(pass.spans.iter().copied()),
            _ => {}
        }
    }

    fn provides(&self, access: Access) -> bool {
        match (access, self.hold) {
            (Access::Bench, Workholding::Bench) | (Access::Centres, Workholding::Centres) => true,
            (Access::Together { .. }, Workholding::Joined { .. }) => true,
            (Access::Pieces { from, to }, Workholding::Pieces(held)) => {
                (from, to) == (held.from, held.to)
            }
            (Access::End(end), Workholding::Collet(grip)) => grip.free == end,
            (Access::End(end), Workholding::Mandrel(mount)) => {
                mount.end != end && mount.tail == TailSupport::Free
            }
            (Access::Outside, Workholding::Mandrel(mount)) => {
                mount.tail != TailSupport::Free || !self.has_centre(mount.end.other())
            }
            (Access::Outside, Workholding::Collet(grip)) => {
                self.strategy.on_stub && grip.free == self.strategy.first
            }
            _ => false,
        }
    }

    fn establish(
        &self,
        access: Access,
        tasks: &Tasks,
        mandrel_set: &mut MandrelSet,
    ) -> Option<Workholding> {
        match access {
            Access::Bench => Some(Workholding::Bench),
            Access::Pieces { from, to } => Some(Workholding::Pieces(self.pieces(from, to, tasks))),
            Access::Centres => Some(Workholding::Centres),
            Access::Together { gripped } => {
                let far = self.strategy.mandrel?.0.other();
                Some(Workholding::Joined {
                    collet: GRIPPED_NUB_DIA,
                    // Its mate is on the tail centre: that one's route says in what.
                    tail: match gripped {
                        true => TailSupport::Free,
                        false => self.tail(far, mandrel_set),
                    },
                })
            }
            Access::Outside if self.strategy.on_stub => self
                .collet(self.strategy.first, tasks)
                .map(Workholding::Collet),
            Access::Outside => self.mount(None, tasks, mandrel_set),
            Access::End(end) => {
                let male = matches!(self.strategy.mandrel, Some((_, MandrelKind::Male)));
                // A tube of which nothing is turned is gripped as it came.
                let bare = self.feature_map.keeps_tube();
                let collet = self.collet(end, tasks).map(Workholding::Collet);
                // A mandrel on a male shank runs truer than a second grip on the stock; on a
                // thread inside, the stock is the surer hold while it lasts.
                match male || bare {
                    true => collet.or_else(|| self.mount(Some(end), tasks, mandrel_set)),
                    false => self.mount(Some(end), tasks, mandrel_set).or(collet),
                }
            }
        }
    }

    /// The part's mandrel, once its own end is cut and where the end wanted is the other.
    fn mount(
        &self,
        free: Option<End>,
        tasks: &Tasks,
        mandrel_set: &mut MandrelSet,
    ) -> Option<Workholding> {
        let (end, kind) = self.strategy.mandrel?;
        let waits = tasks.0.with_ids().any(|(index, task)| {
            let body = matches!(task.work(), Some(Work::Thread(_)))
                && task.rank.0 > crate::tasks::task::Stage::Outside;
            !self.done[index] && task.access == Access::End(end) && !body
        });
        let joining = |task: &Task| matches!(task.work(), Some(Work::JoinIn(_)));
        let mut open = tasks.0.with_ids().filter(|(index, _)| !self.done[*index]);
        let unlined = self.feature_map.is_lined_at(end) && open.any(|(_, task)| joining(task));
        if waits || unlined || free == Some(end) {
            return None;
        }
        let made = mandrel(self.feature_map, end, kind, self.mates, self.bench_tools);
        let tail = match free {
            Some(_) => TailSupport::Free,
            None => self.tail(end.other(), mandrel_set),
        };
        Some(Workholding::Mandrel(Mount {
            mandrel: mandrel_set.put(made),
            end,
            tail,
        }))
    }

    /// Whether the tail centre finds anything at an end.
    fn has_centre(&self, end: End) -> bool {
        self.strategy.nub == Some(end) || self.feature_map.opens_at(end, self.mates)
    }

    /// What supports the far end while the outside is turned.
    fn tail(&self, far: End, mandrel_set: &mut MandrelSet) -> TailSupport {
        if self.strategy.nub == Some(far) {
            return TailSupport::Centre;
        }
        if !self.has_centre(far) {
            return TailSupport::Free;
        }
        open_mouth(self.feature_map, far, self.mates, mandrel_set)
    }

    /// How pieces are held, the last of them free: by the longest of the others, or by its own length.
    fn pieces(&self, from: PieceId, to: PieceId, tasks: &Tasks) -> PieceHold {
        let blanks = self.feature_map.part.blanks();
        let sawn = |index: PieceId| self.blank.pieces.get(index).copied().unwrap_or_default();
        let below = blanks.ids().filter(|it| (from..to).contains(it));
        let below = below.max_by_key(|index| (sawn(*index), std::cmp::Reverse(*index)));
        let gripped = below.unwrap_or(to);
        let free = |index: PieceId| {
            let spigot = blanks[index].spigot.map_or(Length::ZERO, |it| it.length);
            FACING + spigot + CLEAR
        };
        let unsawn =
            |task: &Task| matches!(task.work(), Some(Work::Saw { piece, .. }) if *piece == gripped);
        let on_rod = tasks
            .0
            .with_ids()
            .any(|(index, task)| unsawn(task) && !self.done[index]);
        let own = match below {
            Some(index) => sawn(index),
            None => sawn(to) - free(to),
        };
        let grip = match on_rod {
            true => COLLET_LENGTH,
            false => own.max(Length::ZERO).min(COLLET_LENGTH),
        };
        let whole: Length = blanks
            .ids()
            .filter(|it| (from..=to).contains(it))
            .map(sawn)
            .sum();
        PieceHold {
            from,
            to,
            gripped,
            size: blanks[gripped].stock.size,
            grip,
            overhang: if on_rod { whole } else { whole - grip },
            on_rod,
        }
    }

    /// The best grip on what is still stock, an end standing free.
    fn collet(&self, free: End, tasks: &Tasks) -> Option<Grip> {
        let length = self.feature_map.part.length;
        // A long nub is stock to stand out by.
        let over = match self.blank.nub.filter(|it| it.end == free && !it.gripped) {
            Some(nub) => (nub.length - NUB_LENGTH).max(Length::ZERO),
            None => Length::ZERO,
        };
        let over = over.min(CLEAR + self.blank.length_beyond(free, length));
        let needs = self.feature_map.zone[free.index()] + CLEAR - over;
        let mut low = self.now[0];
        let mut high = self.now[1];
        match free {
            End::First => low = needs,
            End::Second => high = length - needs,
        }
        // What is to be parted off, and the parting tool, stand clear of the collet.
        if let Some((end, _)) = self.blank.stub
            && end != free
            && self.parting_waits(tasks)
        {
            let beyond = self.blank.length_beyond(end, length) - LEAST_GRIP;
            match end {
                End::First => high = -beyond,
                End::Second => low = length + beyond,
            }
        }
        let (from, to) = self.longest_stock(low, high)?;
        let length_gripped = (to - from).min(COLLET_LENGTH);
        if length_gripped < NO_GRIP {
            return None;
        }
        let passes = self
            .bench_tools
            .spindle_bore()
            .is_some_and(|bore| self.blank.dia <= bore);
        let near_low = (free == End::First) == passes;
        let (from, to) = match near_low {
            true => (from, from + length_gripped),
            false => (to - length_gripped, to),
        };
        let overhang = match free {
            End::First => from - self.now[0],
            End::Second => self.now[1] - to,
        };
        Some(Grip {
            dia: self.blank.dia,
            free,
            from,
            to,
            overhang,
        })
    }

    fn parting_waits(&self, tasks: &Tasks) -> bool {
        let parts = |task: &Task| matches!(task.work(), Some(Work::PartOff { .. }));
        tasks
            .0
            .with_ids()
            .any(|(index, task)| parts(task) && !self.done[index])
    }

    /// The longest stretch between two stations that is still stock.
    fn longest_stock(&self, low: Length, high: Length) -> Option<(Length, Length)> {
        let mut turned = self.turned.clone();
        turned.sort();
        let mut free = Vec::new();
        let mut at = low;
        for (from, to) in turned {
            if from > at {
                free.push((at, from.min(high)));
            }
            at = at.max(to);
        }
        free.push((at, high));
        free.into_iter()
            .filter(|(a, b)| a < b)
            .max_by_key(|(a, b)| *b - *a)
    }

    fn short_grip(&self, hold: Workholding, problems: &mut Vec<PlanProblem>) {
        let Workholding::Collet(grip) = hold else {
            return;
        };
        if grip.length() < LEAST_GRIP {
            let (end, length) = (grip.free.other(), grip.length());
            problems.push(PlanProblem::ShortGrip {
                end,
                length,
                wanted: LEAST_GRIP,
            });
        }
    }
}

impl Blank {
    /// How far the blank reaches beyond an end of a part of this length.
    pub(crate) fn length_beyond(&self, end: End, part: Length) -> Length {
        match end {
            End::First => -self.from,
            End::Second => self.to - part,
        }
    }

    /// The width of the cut that parts the stub off.
    pub(crate) fn parting(&self) -> Length {
        PARTING
    }
}
