//! Fills an operation in: tool, depth, speed, pecks, what to measure, what to mind.

mod holes;
mod threads;

use crate::holding::make_mandrel::{own_mandrel, plugs};
use crate::holding::mandrel_set::MandrelSet;
use crate::holding::schedule::WorkState;
use crate::id::TaskId;
use crate::output::measure::{checks, to_the_hole};
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::inside::contains;
use crate::tasks::mate::Mates;
use crate::tasks::task::{Task, TaskWork, Tasks};
use crate::tools::bench_tools::BenchTools;
use crate::tools::speed::{SpeedClass, speed};
use crate::tools::toolbox::{beside_tool, side_tool, socket_tool, turning_tool};
use crate::{
    Blank, Depth, InsideCut, Inspection, JoinedIn, MandrelId, MandrelKind, Measured, Note,
    Operation, Pass, PlanProblem, SpeedLimit, Tailstock, Tool, Work, Workholding,
};
use quillet_geometry::Length;
use quillet_model::{self as model, ById, CutId, End, Material, Part};
use quillet_standards::material::Family;

/// Builds the operations one after the other.
pub(crate) struct OperationBuilder<'a, 'p, 'b> {
    feature_map: &'a FeatureMap<'p>,
    blank: &'a Blank,
    mates: &'a Mates,
    bench_tools: BenchTools<'b>,
    pub(crate) operations: Vec<Operation>,
    /// The operation of each task, once it is placed.
    placed: ById<TaskId, Option<usize>>,
    /// The operation that took the present hold.
    held_since: Option<usize>,
    /// Holes cut so far.
    holes: Vec<InsideCut>,
}

impl<'a, 'p, 'b> OperationBuilder<'a, 'p, 'b> {
    pub(crate) fn new(
        feature_map: &'a FeatureMap<'p>,
        blank: &'a Blank,
        mates: &'a Mates,
        bench_tools: BenchTools<'b>,
        tasks: &Tasks,
    ) -> Self {
        OperationBuilder {
            feature_map,
            blank,
            mates,
            bench_tools,
            operations: Vec::with_capacity(2 * tasks.0.len()),
            placed: tasks.0.map(|_| None),
            held_since: None,
            holes: Vec::new(),
        }
    }

    /// Takes hold of the work anew.
    pub(crate) fn take(&mut self, hold: Workholding, mandrel_set: &MandrelSet) {
        let tool = match hold {
            Workholding::Collet(grip) => Tool::Collet { dia: grip.dia },
            Workholding::Mandrel(mount) => Tool::Mandrel {
                which: mount.mandrel,
            },
            // Nothing to set up at the bench; between centres the next line says it.
            Workholding::Bench
            | Workholding::Pieces(_)
            | Workholding::Centres
            | Workholding::Joined { .. } => return,
        };
        if self.sits_on(hold) {
            return;
        }
        let mut operation = plain(Work::TakeHold, hold);
        operation.tool = Some(tool);
        if let Workholding::Mandrel(mount) = hold
            && let Some(made) = mandrel_set.mandrels.get(mount.mandrel)
            && made.thread.is_some()
        {
            operation.notes.push(match made.left_hand {
                true => Note::LeftHandUnscrews,
                false => Note::ReverseUnscrews,
            });
        }
        self.held_since = Some(self.operations.len());
        self.operations.push(operation);
    }

    /// Whether the work is on that mandrel already: only the tail centre comes or goes.
    fn sits_on(&self, hold: Workholding) -> bool {
        let on = |hold: Workholding| match hold {
            Workholding::Mandrel(mount) => Some((mount.mandrel, mount.end)),
            _ => None,
        };
        let now = self.operations.last().and_then(|it| on(it.hold));
        now.is_some() && now == on(hold)
    }

    /// Places a task.
    #[expect(
        clippy::too_many_lines,
        reason = "what is filled in of an operation, in its order"
    )]
    pub(crate) fn work(
        &mut self,
        index: TaskId,
        task: &Task,
        lathe: &WorkState,
        mandrel_set: &mut MandrelSet,
        problems: &mut Vec<PlanProblem>,
    ) {
        if task.work().is_some_and(|work| self.is_cut_already(work)) {
            return;
        }
        let work = match &task.work {
            TaskWork::Known(work) => work.clone(),
            TaskWork::Plug => Work::Support {
                plug: self.plugged(task, lathe, mandrel_set),
            },
        };
        let mut operation = plain(work.clone(), lathe.hold());
        operation.features = task.features.clone();
        operation.needs = task
            .needs
            .iter()
            .filter_map(|need| self.placed[*need])
            .collect();
        if matches!(
            lathe.hold(),
            Workholding::Collet(_) | Workholding::Mandrel(_)
        ) {
            operation.needs.extend(self.held_since);
        }
        operation.needs.sort_unstable();
        operation.needs.dedup();
        let feature = task.features.first().copied();
        match &work {
            Work::Inside(cut) => self.hole(&mut operation, *cut, feature, problems),
            Work::Thread(cut) => self.thread(&mut operation, cut.clone(), feature, problems),
            Work::Turn(cut) => {
                operation.tool = Some(turning_tool(cut, feature, self.bench_tools, problems));
                operation.depth = Some(Depth {
                    from: cut.end,
                    to_corner: cut.to,
                    to_point: None,
                });
                let around = (cut.end, cut.from, cut.to);
                self.pace(
                    &mut operation,
                    SpeedClass::Turn,
                    self.blank.dia,
                    around,
                    feature,
                    problems,
                );
            }
            Work::Support { plug } => operation.tool = Some(Tool::Mandrel { which: *plug }),
            other => self.rest(&mut operation, other, problems),
        }
        if let Workholding::Mandrel(mount) = lathe.hold() {
            let threaded = mandrel_set
                .mandrels
                .get(mount.mandrel)
                .is_some_and(|it| it.thread.is_some());
            let backs_out = match operation.work {
                Work::Try(_) => true,
                Work::Thread(_) => operation.by_hand,
                _ => false,
            };
            if threaded && backs_out {
                operation.notes.push(Note::HoldWork);
            }
            if matches!(operation.work, Work::RemoveNub { .. }) {
                operation.notes.push(Note::CentreBack);
            }
        }
        operation.notes.extend(coated(self.feature_map.part, &work));
        if let Work::Face { end, to } = work {
            // What is joined in says how far, and nothing is left to be cleaned.
            let how_far = self.level(end).or_else(|| self.faced(end, to, lathe.now));
            operation.notes.extend(how_far);
        }
        if let Work::Outside(pass) = &work
            && pass.pass == Pass::Finish
            && !pass.over.is_positive()
        {
            let drawn = self.feature_map.fattest;
            let under = to_the_hole(self.mates).map(|under| Note::ToTheHole { drawn, under });
            operation.notes.extend(under);
        }
        operation.checks = checks(
            self.feature_map,
            self.mates,
            &model::Hand::at(self.bench_tools.bench),
            &operation,
            lathe.now,
        );
        self.by_pins(&mut operation);
        self.placed[index] = Some(self.operations.len());
        self.operations.push(operation);
    }

    /// A fit in a hole that no caliper reads has two pins for its limits: one goes home, one stays
    /// out.
    fn by_pins(&self, operation: &mut Operation) {
        for note in &mut operation.notes {
            let Note::ShankGoesHome { dia, stays_out } = note else {
                continue;
            };
            let hole = |it: &Inspection| matches!(it.what, Measured::Hole { .. });
            if let Some(at) = operation.checks.iter().position(hole) {
                let limits = operation.checks.remove(at).limits;
                (*dia, *stays_out) = (limits.min(), Some(limits.max()));
            }
        }
    }

    /// What a facing takes level with the part, where something was joined in there before.
    fn level(&self, end: End) -> Option<Note> {
        let joined = self.operations.iter().rev().find_map(|it| match &it.work {
            Work::JoinIn(joined) if joined.end == end => Some(joined.part.clone()),
            _ => None,
        });
        joined.map(|part| Note::LevelWith { part })
    }

    /// What a facing leaves, where the length over all is not made by it.
    fn faced(&self, end: End, to: Length, now: [Length; 2]) -> Option<Note> {
        let far = now[end.other().index()];
        let part = self.feature_map.part;
        let raw = match end {
            End::First => self.blank.to,
            End::Second => self.blank.from,
        };
        if far == raw {
            return Some(Note::UntilClean);
        }
        let nub = self.blank.nub.is_some_and(|it| it.end == end.other());
        let done = far == part.station(end.other(), Length::ZERO);
        let length = (to - far).abs();
        (nub && !done).then_some(Note::LongWithNub { length })
    }

    /// A hole within one that is there, as a second pilot from the other end of a hole right
    /// through; a centre where the end is open.
    fn is_cut_already(&self, work: &Work) -> bool {
        let across = |end: End| {
            self.holes
                .iter()
                .filter(move |it| it.through && it.end != end)
        };
        match work {
            Work::Inside(cut) => {
                let wide = |it: &InsideCut| it.shape.widest() >= cut.shape.widest();
                across(cut.end).any(wide)
                    || self
                        .holes
                        .iter()
                        .any(|it| it.end == cut.end && contains(it, cut))
            }
            Work::Centre { end, in_nub: false } => across(*end).next().is_some(),
            _ => false,
        }
    }

    /// The plug that a task puts in: the mandrel the part goes on later, where it screws in and the die
    /// passes what stands out of it, else one of its own.
    fn plugged(&self, task: &Task, lathe: &WorkState, mandrel_set: &mut MandrelSet) -> MandrelId {
        let end = self.supported_end(task);
        let make = |kind| own_mandrel(self.feature_map, end, kind, self.mates, self.bench_tools);
        let male = match lathe.strategy.mandrel {
            Some((at, MandrelKind::Male)) if at == end && !self.feature_map.is_lined_at(end) => {
                Some(make(MandrelKind::Male))
            }
            _ => None,
        };
        let male = male.filter(|made| plugs(self.feature_map, end, made, self.bench_tools));
        mandrel_set.put(male.unwrap_or_else(|| make(MandrelKind::Plug)))
    }

    /// What to mind where a part is glued in: nothing where it is pressed.
    fn joined_in(&self, joined: &JoinedIn) -> Vec<Note> {
        if joined.pressed {
            return Vec::new();
        }
        let linings = self.feature_map.linings.iter();
        let mut inner = linings.filter(|it| it.joined.part == joined.part);
        let metal = |part: &Part| {
            let mut blanks = part.blanks().iter();
            blanks.any(|it| it.stock.material.kind.family() == Family::Metal)
        };
        let metal = metal(self.feature_map.part) || inner.any(|it| metal(it.map.part));
        let degrease = metal.then_some(Note::Degrease);
        let rest = [Note::CleanLine, Note::Cure];
        degrease.into_iter().chain(rest).collect()
    }

    fn supported_end(&self, task: &Task) -> End {
        match task.access {
            crate::tasks::task::Access::End(end) => end,
            _ => End::First,
        }
    }

    /// Everything that is neither hole, thread nor cylinder.
    #[expect(
        clippy::too_many_lines,
        reason = "what is filled in after the tool is known, in its order"
    )]
    fn rest(&self, operation: &mut Operation, work: &Work, problems: &mut Vec<PlanProblem>) {
        let all = (End::First, Length::ZERO, self.feature_map.part.length);
        let (stock, finished) = (self.blank.dia, self.feature_map.fattest);
        let turning = match work {
            Work::Saw { .. } => {
                operation.tool = Some(Tool::Saw);
                None
            }
            Work::GlueUp { .. } => {
                operation.tool = Some(Tool::Glue);
                if self.metal_in((End::First, Length::ZERO, self.feature_map.part.length)) {
                    operation.notes.push(Note::Degrease);
                }
                operation
                    .notes
                    .extend([Note::LineUp, Note::CleanLine, Note::Cure]);
                None
            }
            Work::JoinIn(joined) => {
                operation.tool = (!joined.pressed).then_some(Tool::Glue);
                operation.notes.extend(self.joined_in(joined));
                None
            }
            Work::Socket {
                dia, leads: true, ..
            } => {
                let name = quillet_model::DrillName::Diameter;
                operation.tool = Some(Tool::Drill { dia: *dia, name });
                Some((SpeedClass::Drill, *dia))
            }
            Work::Socket { dia, depth, .. } => {
                operation.tool = Some(socket_tool(*dia, *depth, self.bench_tools));
                Some((SpeedClass::Drill, *dia))
            }
            // Off the lathe it is marked and drilled upright: no spindle of the lathe turns.
            Work::Centre { .. } if operation.hold == Workholding::Bench => {
                operation.tool = Some(Tool::CentreDrill);
                None
            }
            Work::Centre { .. } => {
                operation.tool = Some(Tool::CentreDrill);
                // A centre drill is small: the lathe's faster speeds do.
                Some((SpeedClass::Drill, Length::mm(4.0)))
            }
            Work::PartOff { .. } => {
                operation.tool = Some(Tool::PartingTool);
                Some((SpeedClass::Part, stock))
            }
            Work::Outside(pass) => {
                operation.tool = Some(match pass.pass {
                    crate::Pass::Rough => Tool::PartingTool,
                    crate::Pass::Finish | crate::Pass::Blend => Tool::TurningTool,
                });
                Some((
                    SpeedClass::Turn,
                    if pass.pass == crate::Pass::Rough {
                        stock
                    } else {
                        finished
                    },
                ))
            }
            Work::Face { .. } | Work::FacePiece(_) | Work::Spigot { .. } | Work::Round { .. } => {
                operation.tool = Some(Tool::TurningTool);
                Some((SpeedClass::Turn, stock))
            }
            Work::BreakCorner { .. } | Work::RemoveNub { .. } => {
                operation.tool = Some(Tool::TurningTool);
                Some((SpeedClass::Turn, finished))
            }
            Work::Side { cut, places } => {
                let part = self.feature_map.part;
                operation.tool = side_tool(part, *cut, *places, self.bench_tools, problems);
                operation.by_hand = operation.tool == Some(Tool::File);
                // A pattern is cut as the work turns, by a tool that bears on its whole width.
                let turns = operation.tool == Some(Tool::PatternTool);
                turns.then_some((SpeedClass::Part, finished))
            }
            Work::Beside { holes, places, .. } => {
                let part = self.feature_map.part;
                operation.tool = beside_tool(part, *holes, *places, self.bench_tools, problems);
                None
            }
            Work::Polish { .. } => {
                operation.tool = Some(Tool::Abrasives);
                Some((SpeedClass::Sand, finished))
            }
            _ => None,
        };
        if let Some((pace, dia)) = turning {
            self.pace(operation, pace, dia, all, None, problems);
        }
    }

    /// The tailstock's readings: nought where the point touches the face.
    fn tailstock(&self, deepest: Length) -> Tailstock {
        let travel = self
            .bench_tools
            .travel()
            .filter(|travel| travel.is_positive());
        let mut stops = Vec::new();
        let mut left = deepest;
        while let Some(travel) = travel.filter(|travel| left > *travel) {
            stops.push(travel);
            left -= travel;
        }
        stops.push(left);
        Tailstock { stops }
    }

    fn pace(
        &self,
        operation: &mut Operation,
        pace: SpeedClass,
        dia: Length,
        around: (End, Length, Length),
        feature: Option<CutId>,
        problems: &mut Vec<PlanProblem>,
    ) {
        operation.speed = speed(pace, dia, self.materials(around), self.bench_tools.bench);
        let Some(found) = &operation.speed else {
            operation.notes.push(Note::SpeedUnknown);
            return;
        };
        let lathe = self
            .bench_tools
            .bench
            .and_then(|bench| bench.lathe.as_ref());
        if let (Some(limit @ SpeedLimit::TooFast), Some(lathe)) = (found.limited, lathe) {
            let wanted = |v: f64| quillet_standards::material::spindle_speed(v, dia);
            problems.push(PlanProblem::NoSpeed {
                feature,
                limit,
                wanted_rev_min: (wanted(found.cutting_m_min.0), wanted(found.cutting_m_min.1)),
                lathe_rev_min: (lathe.slowest_rev_min(), lathe.fastest_rev_min()),
            });
        }
    }

    /// The materials between two distances from an end's face.
    fn materials(&self, (end, from, to): (End, Length, Length)) -> Vec<&'p Material> {
        let part = self.feature_map.part;
        let (a, b) = (part.station(end, from), part.station(end, to));
        let (low, high) = (a.min(b), a.max(b));
        let met = part
            .blanks()
            .iter()
            .filter(|it| it.from < high && low < it.to);
        met.map(|it| it.stock.material.as_ref()).collect()
    }

    fn metal_in(&self, around: (End, Length, Length)) -> bool {
        self.materials(around)
            .iter()
            .any(|it| it.kind.family() == Family::Metal)
    }
}

/// What a coat asks of an operation on the outside.
fn coated(part: &Part, work: &Work) -> Option<Note> {
    let coat = part.coat()?;
    match work {
        Work::Outside(pass) if pass.pass != crate::Pass::Rough => Some(Note::UnderCoat {
            under: part.coat_on_dia(),
        }),
        Work::Polish { .. } => Some(Note::Coat {
            name: coat.name.text.to_string(),
            thickness: coat.thickness,
        }),
        _ => None,
    }
}

fn plain(work: Work, hold: Workholding) -> Operation {
    Operation {
        work,
        hold,
        tool: None,
        features: Vec::new(),
        depth: None,
        speed: None,
        by_hand: false,
        peck: None,
        tailstock: None,
        single_point: None,
        checks: Vec::new(),
        notes: Vec::new(),
        needs: Vec::new(),
        after: None,
        as_made: None,
    }
}
