//! All that must be done to a part, from the saw to the polish.

use crate::holding::make_mandrel::mandrel;
use crate::id::TaskId;
use crate::tasks::as_one::{Extent, join_tasks};
use crate::tasks::beside::{beside_at, beside_tasks};
use crate::tasks::blank::{NUB_DIA, RING_LONG};
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::inside::inside_tasks;
use crate::tasks::lining::lining_tasks;
use crate::tasks::mate::{Mate, Mates};
use crate::tasks::outside::{OutsideLayout, body_corners, body_tasks, zone_tasks};
use crate::tasks::passes::{FINISH_OVER, is_hidden, passes};
use crate::tasks::side::{opens_end, side_tasks};
use crate::tasks::stack::blank_tasks;
use crate::tasks::task::BlendPartner;
use crate::tasks::task::{Access, Rank, Stage, Task, Tasks};
use crate::tools::bench_tools::BenchTools;
use crate::{
    Blank, Core, Home, OutsidePass, Pass, PlanProblem, Strategy, TrialFit, Unschedulable, Work,
};
use quillet_geometry::Length;
use quillet_model::{End, Feature};
use quillet_syntax::ast::{Side, Verb};

/// The tasks of a part, with what each needs.
pub(crate) fn all_tasks(
    feature_map: &FeatureMap,
    strategy: &Strategy,
    blank: &Blank,
    mates: &Mates,
    extent: &Extent,
    bench_tools: BenchTools,
    problems: &mut Vec<PlanProblem>,
) -> Tasks {
    let mut tasks = Tasks::default();
    let begun = match extent {
        Extent::Outside(begun) => join_tasks(feature_map, begun, &mut tasks),
        _ => blank_tasks(feature_map, strategy, blank, bench_tools, &mut tasks),
    };
    let mut builder = TaskBuilder {
        feature_map,
        strategy,
        blank,
        mates,
        bench_tools,
        tasks: &mut tasks,
    };
    if let Extent::Outside(_) = extent {
        builder.outside(&begun, None, problems);
        return tasks;
    }
    let centred = builder.far_centre(&begun);
    let mut first = builder.end(strategy.first, Stage::FirstEnd, &centred, problems);
    first.extend(builder.gates(strategy.first, MetFrom::FromHere));
    let parted = builder.part_off(&first);
    let later = extent.faced_later() == Some(strategy.first.other());
    let mut second = match later {
        true => parted,
        false => builder.second_end(&[first.clone(), parted].concat(), problems),
    };
    second.extend(builder.gates(strategy.first.other(), MetFrom::FromHere));
    for end in crate::tasks::feature_map::ENDS {
        second.extend(builder.gates(end, MetFrom::FromBoth));
    }
    let cut = [first, second].concat();
    let lined = lining_tasks(feature_map, mates, cut, builder.tasks);
    if let Extent::Whole(blended) = extent {
        builder.outside(&lined, *blended, problems);
    }
    tasks
}

/// Where holes beside the axis come among what is cut at an end: while it is solid behind them, the
/// centre alone before.
const BESIDE: u8 = 1;

/// From where a mate is met.
#[derive(Clone, Copy, PartialEq, Eq)]
enum MetFrom {
    /// From its own end alone, or the other end is cut already.
    FromHere,
    /// By cuts from both ends.
    FromBoth,
}

struct TaskBuilder<'a, 'p, 'b> {
    feature_map: &'a FeatureMap<'p>,
    strategy: &'a Strategy,
    blank: &'a Blank,
    mates: &'a Mates,
    bench_tools: BenchTools<'b>,
    tasks: &'a mut Tasks,
}

impl TaskBuilder<'_, '_, '_> {
    /// The nub's end is faced and centred for the tail centre while there is stock to grip.
    fn far_centre(&mut self, start: &[TaskId]) -> Vec<TaskId> {
        let stubbed = self.blank.stub.is_some();
        let Some(end) = self
            .strategy
            .nub
            .filter(|_| !stubbed && !self.blank.rounded)
        else {
            return start.to_vec();
        };
        let to = self.feature_map.part.station(end, -self.nub_length());
        let access = Access::End(end);
        let face = self.tasks.put(
            Work::Face { end, to },
            access,
            (Stage::FarCentre, 0, 0),
            start.to_vec(),
        );
        let work = Work::Centre { end, in_nub: true };
        vec![
            self.tasks
                .put(work, access, (Stage::FarCentre, 1, 0), vec![face]),
        ]
    }

    fn nub_length(&self) -> Length {
        self.blank.nub.map_or(Length::ZERO, |it| it.length)
    }

    /// Face an end, then all that is cut from it; the tasks added.
    fn end(
        &mut self,
        end: End,
        stage: Stage,
        start: &[TaskId],
        problems: &mut Vec<PlanProblem>,
    ) -> Vec<TaskId> {
        let from = self.tasks.0.len();
        let to = self.feature_map.part.station(end, Length::ZERO);
        let work = Work::Face { end, to };
        let face = self
            .tasks
            .put(work, Access::End(end), (stage, 0, 0), start.to_vec());
        inside_tasks(
            self.feature_map,
            end,
            stage,
            self.bench_tools,
            self.tasks,
            &[face],
            problems,
        );
        let part = self.feature_map.part;
        beside_tasks(
            part,
            end,
            |nth| (stage, BESIDE, 1 + nth),
            &[face],
            self.tasks,
        );
        let place = OutsideLayout {
            end,
            stage,
            access: Access::End(end),
            start: &[face],
        };
        zone_tasks(self.feature_map, &place, self.bench_tools, self.tasks);
        self.tasks.since(from).collect()
    }

    /// Stops at an end, where a mate is at hand to be tried: after every cut that it touches or passes
    /// when it is home. One that meets cuts from both ends is tried off the lathe, when those are done.
    fn gates(&mut self, end: End, met: MetFrom) -> Vec<TaskId> {
        let mates = self.mates;
        let from = self.tasks.0.len();
        for mate in &mates[end.index()] {
            if self.met(end, mate) != met || self.tried(end, mate) {
                continue;
            }
            let threaded = matches!(mate.verb, Verb::Screw | Verb::Close);
            let joins = |task: &Task| match task.work() {
                Some(Work::Thread(cut)) => {
                    let own = mate.thread.is_some_and(|it| task.features.contains(&it));
                    let is_there = task.end() == Some(end) || own;
                    threaded && cut.inside != mate.goes_in && is_there
                }
                Some(Work::Turn(_)) => !threaded && mate.goes_in && task.end() == Some(end),
                Some(Work::Inside(_)) => !threaded && !mate.goes_in && task.end() == Some(end),
                _ => false,
            };
            if !self.tasks.0.iter().any(joins) {
                continue;
            }
            let Some(gate) = self.gate(end, mate, threaded) else {
                continue;
            };
            let needs = self.touched(end, mate, gate.depth);
            let Some(last) = needs.iter().map(|it| self.tasks.0[*it].rank).max() else {
                continue;
            };
            let (access, rank) = match met {
                MetFrom::FromBoth => (Access::Bench, (Stage::SecondEnd, u8::MAX, i64::MAX)),
                MetFrom::FromHere => {
                    let access = match self.strategy.on_stub && end != self.strategy.first {
                        true => Access::Outside,
                        false => Access::End(end),
                    };
                    (access, (last.0, last.1.saturating_add(1), i64::MAX))
                }
            };
            self.tasks.put(Work::Try(gate), access, rank, needs);
        }
        self.tasks.since(from).collect()
    }

    /// Whether a mate is tried at an end already.
    fn tried(&self, end: End, mate: &Mate) -> bool {
        let tries = |task: &Task| match task.work() {
            Some(Work::Try(gate)) => gate.end == end && gate.mate == mate.part,
            _ => false,
        };
        self.tasks.0.iter().any(tries)
    }

    /// Whether a mate, when home, meets cuts from this end alone.
    fn met(&self, end: End, mate: &Mate) -> MetFrom {
        let part = self.feature_map.part;
        let from_far = |it: &Feature| {
            let near = match it.through {
                true => Length::ZERO,
                false => part.length - it.to,
            };
            it.end != end && it.is_inside() && near < mate.depth
        };
        // A die that comes from the other end cuts its thread when this end is held or done.
        let thread = mate.thread.and_then(|it| part.features.get(it));
        if thread.is_some_and(|it| it.end != end) {
            return MetFrom::FromBoth;
        }
        let later = end == self.strategy.first;
        match !mate.goes_in && later && part.features.iter().any(from_far) {
            true if mate.bought => MetFrom::FromBoth,
            _ => MetFrom::FromHere,
        }
    }

    /// The tasks that cut what a mate touches or passes.
    fn touched(&self, end: End, mate: &Mate, depth: Length) -> Vec<TaskId> {
        let part = self.feature_map.part;
        let within = |own: End, from: Length, to: Length| match own == end {
            true => from < depth,
            false => part.length - to < depth,
        };
        let meets = |task: &Task| match (task.work(), mate.goes_in) {
            (Some(Work::Inside(cut)), false) => cut.through || within(cut.end, cut.from, cut.to),
            (Some(Work::Thread(cut)), goes_in) if cut.inside != goes_in => {
                within(cut.end, cut.from, cut.to)
            }
            (Some(Work::Turn(_) | Work::BreakCorner { .. }), true) => task.end() == Some(end),
            _ => false,
        };
        let all = self.tasks.0.with_ids();
        all.filter(|(_, task)| meets(task)).map(|it| it.0).collect()
    }

    /// The stop at which a mate is tried. Females come first: until the mate is cut, the mandrel
    /// that copies it is tried, where the part goes on one.
    fn gate(&self, end: End, mate: &Mate, threaded: bool) -> Option<TrialFit> {
        let copy = !mate.bought && !mate.goes_in;
        let (turns, home, depth) = match copy {
            false => (mate.turns, mate.home.clone(), mate.depth),
            true => {
                let held = self.strategy.mandrel.filter(|it| it.0 == end);
                let (_, kind) = held.filter(|_| !self.feature_map.is_lined_at(end))?;
                let made = mandrel(self.feature_map, end, kind, self.mates, self.bench_tools);
                let part = self.feature_map.part;
                let thread = self.feature_map.thread_at(end, Side::Inside);
                let index =
                    thread.and_then(|it| part.features.position(|own| std::ptr::eq(own, it)));
                let begins = index.and_then(|it| Some(part.full_form(it, end)?.0));
                let turns = begins.and_then(|it| made.turns_in(it));
                (turns, Some(Home::Shoulder), made.reach())
            }
        };
        Some(TrialFit {
            end,
            mate: mate.part.clone(),
            bought: mate.bought,
            copy,
            goes_in: mate.goes_in,
            depth,
            turns: turns.filter(|_| threaded),
            home,
        })
    }

    /// The stub is parted off once the first end is done.
    fn part_off(&mut self, first: &[TaskId]) -> Vec<TaskId> {
        let Some((end, _)) = self.blank.stub.filter(|_| !self.strategy.on_stub) else {
            return Vec::new();
        };
        let long = match self.strategy.nub {
            Some(nub) if nub == end => self.nub_length(),
            _ if self.strategy.ring => RING_LONG,
            _ => self.blank.facing[end.index()],
        };
        let at = self.feature_map.part.station(end, -long);
        let work = Work::PartOff {
            end,
            at,
            width: self.blank.parting(),
            shaping: false,
        };
        let access = Access::End(self.strategy.first);
        vec![
            self.tasks
                .put(work, access, (Stage::Part, 0, 0), first.to_vec()),
        ]
    }

    fn second_end(&mut self, start: &[TaskId], problems: &mut Vec<PlanProblem>) -> Vec<TaskId> {
        let end = self.strategy.first.other();
        if self.strategy.nub == Some(end) {
            if self.blank.stub.is_none() {
                return Vec::new();
            }
            let work = Work::Centre { end, in_nub: true };
            let rank = (Stage::SecondEnd, 0, 0);
            return vec![self.tasks.put(work, Access::End(end), rank, start.to_vec())];
        }
        if !self.strategy.on_stub {
            return self.end(end, Stage::SecondEnd, start, problems);
        }
        for (feature, it) in self.feature_map.part.features.with_ids() {
            if it.end == end && (it.is_inside() || it.thread().is_some()) {
                let why = Unschedulable::NothingToHold { end };
                let feature = Some(feature);
                problems.push(PlanProblem::NoOrder { feature, why });
            }
        }
        if beside_at(self.feature_map.part, end) {
            let why = Unschedulable::NothingToHold { end };
            problems.push(PlanProblem::NoOrder { feature: None, why });
        }
        let from = self.tasks.0.len();
        let place = OutsideLayout {
            end,
            stage: Stage::Outside,
            access: Access::Outside,
            start,
        };
        zone_tasks(self.feature_map, &place, self.bench_tools, self.tasks);
        self.tasks.since(from).collect()
    }

    #[expect(
        clippy::too_many_lines,
        reason = "one pass of the outside after another, each waiting for those before"
    )]
    fn outside(
        &mut self,
        cut: &[TaskId],
        blended: Option<BlendPartner>,
        problems: &mut Vec<PlanProblem>,
    ) {
        let spans = self.feature_map.shaped.clone();
        let stub = self
            .blank
            .stub
            .map(|it| it.0)
            .filter(|_| self.strategy.on_stub);
        let of_nub = self.blank.nub.map(|nub| Core {
            end: nub.end,
            dia: nub.core(),
            nub: Some(nub),
        });
        let core = of_nub.or(stub.map(|end| Core {
            end,
            dia: NUB_DIA,
            nub: None,
        }));
        let mut last = cut.to_vec();
        if !spans.is_empty() {
            let passes = passes(self.feature_map, self.blank, core, self.mates);
            for (step, (pass, over)) in (0..).zip(passes) {
                let pass = OutsidePass {
                    pass,
                    spans: spans.clone(),
                    over,
                    core,
                    with: None,
                };
                let rank = (Stage::Outside, step + 20, 0);
                last = vec![
                    self.tasks
                        .put(Work::Outside(pass), Access::Outside, rank, last),
                ];
            }
        }
        let before = self.tasks.0.len();
        body_tasks(
            self.feature_map,
            &last,
            self.bench_tools,
            self.tasks,
            problems,
        );
        // What is screwed over a thread in the shaped outside is tried once that is cut.
        for end in crate::tasks::feature_map::ENDS {
            self.gates(end, MetFrom::FromHere);
            self.gates(end, MetFrom::FromBoth);
        }
        last.extend(self.tasks.since(before));
        let joined = blended.filter(|_| !spans.is_empty());
        if let Some(with) = joined {
            last = vec![self.joined(with, core, last)];
        }
        let centred = self.centred_mouth();
        last.extend(side_tasks(
            self.feature_map.part,
            centred,
            &last,
            self.tasks,
        ));
        // Without its nub the end has nothing for the tail centre any more.
        let opened = centred.filter(|end| opens_end(self.feature_map.part, *end));
        let free = self.strategy.nub.or(opened);
        let finished = free.map_or(Access::Outside, Access::End);
        if let Some(with) = joined {
            // The two are sanded as one, so that no edge is rounded where they meet.
            let rank = (Stage::Finish, 29, 1);
            last = vec![self.polish(core, with.access(), rank, last)];
        }
        if let Some(end) = self.strategy.nub {
            let over = match joined {
                Some(_) => Length::ZERO,
                None => FINISH_OVER,
            };
            let work = Work::RemoveNub { end, over };
            let rank = (Stage::Finish, 30, 0);
            last = vec![self.tasks.put(work, Access::End(end), rank, last)];
        }
        let is_bare = self.strategy.nub.is_none() && is_hidden(self.feature_map, self.mates);
        if !spans.is_empty() && joined.is_none() && !is_bare {
            last = vec![self.polish(None, finished, (Stage::Finish, 31, 0), last)];
        }
        last.extend(body_corners(self.feature_map, finished, &last, self.tasks));
        if let Some(end) = stub {
            let at = self.feature_map.part.station(end, Length::ZERO);
            let width = self.blank.parting();
            let work = Work::PartOff {
                end,
                at,
                width,
                shaping: true,
            };
            self.tasks
                .put(work, Access::Outside, (Stage::Finish, 33, 0), last);
        }
    }

    /// The pass that runs two outsides into each other, joined, when each is turned and threaded: the fewer
    /// times the work is taken hold of.
    fn joined(&mut self, with: BlendPartner, core: Option<Core>, last: Vec<TaskId>) -> TaskId {
        let pass = OutsidePass {
            pass: Pass::Blend,
            spans: self.feature_map.shaped.clone(),
            over: FINISH_OVER,
            core,
            with: Some(with.route),
        };
        let rank = (Stage::Finish, 29, 0);
        self.tasks
            .put(Work::Outside(pass), with.access(), rank, last)
    }

    /// Sanding and polishing, a nub left standing.
    fn polish(
        &mut self,
        core: Option<Core>,
        access: Access,
        rank: Rank,
        needs: Vec<TaskId>,
    ) -> TaskId {
        let joined_later = |it: &Mate| it.verb == Verb::Glue && (it.goes_in || !it.before_turning);
        let glued = self.mates.iter().flatten().any(joined_later);
        let work = Work::Polish {
            over: FINISH_OVER,
            before_gluing: self.strategy.ring || glued,
            core,
        };
        self.tasks.put(work, access, rank, needs)
    }

    /// The open end that the tail centre stands in while the outside is turned on a mandrel.
    fn centred_mouth(&self) -> Option<End> {
        let far = self.strategy.mandrel?.0.other();
        let opens = self.feature_map.opens_at(far, self.mates);
        (opens && self.strategy.nub != Some(far)).then_some(far)
    }
}
