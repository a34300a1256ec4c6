//! Tasks inside: holes, bores, threads and mouths from one end.

use crate::id::TaskId;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::task::{Access, Rank, Stage, Task, Tasks};
use crate::tools::bench_tools::BenchTools;
use crate::{InsideCut, InsideShape, PlanProblem, ThreadCut, Work};
use quillet_geometry::{Angle, Length};
use quillet_model::{Cut, CutId, DrillName, End, Feature};
use quillet_standards::drill::point_length;
use quillet_syntax::ast::Side;

/// Adds all that is cut inside from an end; `start` are the tasks that come before any of it.
pub(crate) fn inside_tasks(
    feature_map: &FeatureMap,
    end: End,
    stage: Stage,
    bench_tools: BenchTools,
    tasks: &mut Tasks,
    start: &[TaskId],
    problems: &mut Vec<PlanProblem>,
) {
    let mut builder = InsideTasks {
        feature_map,
        end,
        stage,
        bench_tools,
        tasks,
        start,
        cuts: Vec::new(),
    };
    builder.holes(problems);
    builder.threads();
}

struct InsideTasks<'a, 'p, 'b> {
    feature_map: &'a FeatureMap<'p>,
    end: End,
    stage: Stage,
    bench_tools: BenchTools<'b>,
    tasks: &'a mut Tasks,
    start: &'a [TaskId],
    /// Each cut with its task.
    cuts: Vec<(InsideCut, TaskId)>,
}

/// Practice within an end: females first, drills before bores, threads last of the inside.
const CENTRE: u8 = 1;
const DRILL: u8 = 2;
const REAM: u8 = 3;
const BORE: u8 = 4;
const RECESS: u8 = 5;
const MOUTH: u8 = 6;
const THREAD: u8 = 7;

/// Smaller holes need no centre of their own, and metal no pilot, below this.
const PILOT_FROM: Length = Length::from_nm(8_000_000);

/// A flat tool sunk no deeper than this needs no hole to lead it (common practice, no published
/// source).
const FLAT_ALONE: Length = Length::from_nm(1_000_000);
/// How far a leading drill's point stays above a flat bottom (common practice, no published source).
const ABOVE_FLAT: Length = Length::from_nm(300_000);

impl InsideTasks<'_, '_, '_> {
    fn holes(&mut self, problems: &mut Vec<PlanProblem>) {
        let part = self.feature_map.part;
        let own = part
            .features
            .with_ids()
            .filter(|(_, it)| it.end == self.end);
        let written: Vec<(CutId, InsideCut)> = own
            .filter_map(|(index, feature)| Some((index, inside_cut(feature)?)))
            .collect();
        if written.is_empty() {
            return;
        }
        let centre = self.tasks.put(
            Work::Centre {
                end: self.end,
                in_nub: false,
            },
            Access::End(self.end),
            (self.stage, CENTRE, 0),
            self.start.to_vec(),
        );
        for (index, cut) in &written {
            let task = self.tasks.add(Task {
                work: Work::Inside(*cut).into(),
                features: vec![*index],
                access: Access::End(self.end),
                needs: vec![centre],
                rank: rank(self.stage, cut),
            });
            self.cuts.push((*cut, task));
        }
        self.pilots(centre);
        for (index, cut) in &written {
            self.open(*index, *cut, centre, problems);
        }
        self.order();
    }

    /// A pilot of the drill's web for large holes in solid metal; resin would grab.
    fn pilots(&mut self, centre: TaskId) {
        let solid: Vec<(InsideCut, TaskId)> = self.cuts.clone();
        for (cut, task) in &solid {
            let InsideShape::Drill { dia, point, .. } = cut.shape else {
                continue;
            };
            let material = self.feature_map.part.material_in(
                self.feature_map.part.station(self.end, cut.from),
                Length::ZERO,
            );
            let metal = material
                .is_some_and(|it| it.kind.family() == quillet_standards::material::Family::Metal);
            if !metal || dia < PILOT_FROM || self.is_tube(cut) {
                continue;
            }
            let first = !solid
                .iter()
                .any(|(other, _)| other != cut && contains(cut, other));
            if !first {
                continue;
            }
            let wanted = Length::mm((dia.to_mm() * 4.0).round() / 10.0);
            let Some(pilot) = self.bench_tools.drill_up_to(wanted) else {
                continue;
            };
            let shape = drill(pilot, point);
            self.helper(InsideCut { shape, ..*cut }, *task, centre);
        }
    }

    /// Whether a cut widens a tube, which brings the hole that leads it.
    fn is_tube(&self, cut: &InsideCut) -> bool {
        let bore = self.feature_map.part.tube().and_then(|it| it.tube_bore());
        bore.is_some_and(|bore| bore < cut.shape.widest())
    }

    /// A hole for a boring bar or reamer to start in, where no written cut makes one.
    fn open(
        &mut self,
        feature: CutId,
        cut: InsideCut,
        centre: TaskId,
        problems: &mut Vec<PlanProblem>,
    ) {
        let Some(&(_, task)) = self.cuts.iter().find(|it| it.0 == cut) else {
            return;
        };
        let (least, allowance_mm) = match cut.shape {
            InsideShape::Bore { dia } => (dia, 0.5),
            InsideShape::Ream { dia } => (dia, 0.2),
            InsideShape::Taper { from_dia, to_dia } => (from_dia.min(to_dia), 0.2),
            InsideShape::Recess { dia } => (dia, 0.0),
            InsideShape::Drill { .. } | InsideShape::Countersink { .. } => return,
        };
        let opened = self.cuts.iter().any(|(other, _)| {
            other != &cut
                && matches!(
                    other.shape,
                    InsideShape::Drill { .. } | InsideShape::Bore { .. }
                )
                && (cut.through || other.to >= cut.to)
                && other.shape.widest() < least
                || other.through && other != &cut && other.shape.widest() < least
        });
        let larger_first = |other: &InsideCut| {
            matches!(other.shape, InsideShape::Drill { .. }) && other.to >= cut.from
        };
        if opened || self.is_tube(&cut) {
            return;
        }
        if matches!(cut.shape, InsideShape::Recess { .. }) {
            if !self
                .cuts
                .iter()
                .any(|(other, _)| other != &cut && larger_first(other))
            {
                problems.push(PlanProblem::NoOrder {
                    feature: Some(feature),
                    why: crate::Unschedulable::NoWayIn,
                });
            }
            return;
        }
        // A flat drill has no point to lead it.
        let by_bar = self.bench_tools.bar(least, cut.to).is_some();
        if matches!(cut.shape, InsideShape::Bore { .. }) && !by_bar && !cut.from.is_positive() {
            self.before_flat(cut, task, centre);
            return;
        }
        let under = Length::mm(least.to_mm() - allowance_mm);
        let Some(dia) = self
            .bench_tools
            .drill_up_to(under)
            .filter(|dia| dia.is_positive())
        else {
            return;
        };
        let point = Angle::deg(118.0);
        let tip = point_length(dia, point);
        let to = if cut.through {
            cut.to
        } else {
            cut.to - tip - Length::mm(0.1)
        };
        if to.is_positive() {
            let opening = InsideCut {
                from: Length::ZERO,
                to,
                shape: drill(dia, point),
                ..cut
            };
            self.helper(opening, task, centre);
        }
    }

    /// A flat tool deeper than a millimetre is led by a hole: where there is none of three fifths of
    /// its size, by the largest drill of nine tenths, whose cone ends above the flat bottom (common
    /// practice, no published source).
    fn before_flat(&mut self, cut: InsideCut, task: TaskId, centre: TaskId) {
        let dia = cut.shape.widest();
        if cut.to <= FLAT_ALONE {
            return;
        }
        let leads = |other: &InsideCut| {
            let (wide, point) = match other.shape {
                InsideShape::Drill { dia, point, .. } => (dia, point_length(dia, point)),
                InsideShape::Bore { dia } | InsideShape::Ream { dia } => (dia, Length::ZERO),
                _ => return false,
            };
            let reach = other.to + point + FLAT_ALONE;
            wide < dia && wide.ratio(dia) >= 0.6 && (other.through || reach >= cut.to)
        };
        if self.cuts.iter().any(|(other, _)| leads(other)) {
            return;
        }
        let most = Length::mm((dia.to_mm() * 9.0).floor() / 10.0);
        let Some(pilot) = self
            .bench_tools
            .drill_up_to(most)
            .filter(|it| it.is_positive())
        else {
            return;
        };
        let point = Angle::deg(118.0);
        let to = cut.to - point_length(pilot, point) - ABOVE_FLAT;
        if to.is_positive() {
            let shape = drill(pilot, point);
            self.helper(InsideCut { to, shape, ..cut }, task, centre);
        }
    }

    fn helper(&mut self, cut: InsideCut, before: TaskId, centre: TaskId) {
        let task = self.tasks.put(
            Work::Inside(cut),
            Access::End(self.end),
            rank(self.stage, &cut),
            vec![centre],
        );
        self.tasks.before(task, before);
        self.cuts.push((cut, task));
    }

    /// What lies wholly within another hole is cut before it; what starts behind a mouth
    /// waits for the mouth; bores wait for the drills under them.
    ///
    /// Equal cuts follow one another as they are written, so the first of them waits for the last of
    /// others: what the rest wait for follows.
    fn order(&mut self) {
        let runs = self.runs();
        for run in &runs {
            for pair in run.tasks.windows(2) {
                self.wait(pair[1], pair[0]);
            }
        }
        for later in &runs {
            for earlier in runs.iter().filter(|it| !std::ptr::eq(*it, later)) {
                match precedence(&later.cut, &earlier.cut) {
                    Precedence::No => {}
                    Precedence::ForAll => self.wait_for_all(later, earlier),
                    Precedence::AsWritten => self.wait_as_written(later, earlier),
                }
            }
        }
    }

    fn wait_for_all(&mut self, later: &EqualCuts, earlier: &EqualCuts) {
        let (Some(&task), Some(&last)) = (later.tasks.first(), earlier.tasks.last()) else {
            return;
        };
        let needs = &self.tasks.0[last].needs;
        if !later.tasks.iter().any(|it| needs.contains(it)) {
            self.wait(task, last);
        }
    }

    fn wait_as_written(&mut self, later: &EqualCuts, earlier: &EqualCuts) {
        for task in &later.tasks {
            let before = earlier.tasks.partition_point(|it| it < task);
            if let Some(&last) = earlier.tasks[..before].last()
                && !self.tasks.0[last].needs.contains(task)
            {
                self.wait(*task, last);
            }
        }
    }

    /// The cuts, equal ones together; of those that do not hold their like each alone.
    fn runs(&self) -> Vec<EqualCuts> {
        let mut runs: Vec<EqualCuts> = Vec::new();
        for (cut, task) in &self.cuts {
            let mut known = runs.iter_mut();
            match known.find(|run| run.cut == *cut && contains(cut, cut)) {
                Some(run) => run.tasks.push(*task),
                None => runs.push(EqualCuts {
                    cut: *cut,
                    tasks: vec![*task],
                }),
            }
        }
        runs
    }

    fn wait(&mut self, task: TaskId, earlier: TaskId) {
        let needs = &mut self.tasks.0[task].needs;
        if !needs.contains(&earlier) {
            needs.push(earlier);
        }
    }

    fn threads(&mut self) {
        let part = self.feature_map.part;
        for (index, feature) in part.features.with_ids() {
            let Some((thread, Side::Inside)) = feature.thread() else {
                continue;
            };
            if feature.end != self.end {
                continue;
            }
            let cut = ThreadCut {
                end: self.end,
                inside: true,
                thread: thread.clone(),
                from: feature.from,
                to: feature.to,
                method: self.bench_tools.threading(&thread.thread, true),
            };
            let mut needs = self.start.to_vec();
            let opens = |it: &&(InsideCut, TaskId)| it.0.from < feature.to;
            needs.extend(self.cuts.iter().filter(opens).map(|it| it.1));
            self.tasks.add(Task {
                work: Work::Thread(cut).into(),
                features: vec![index],
                access: Access::End(self.end),
                needs,
                rank: (self.stage, THREAD, feature.from.nm()),
            });
        }
    }
}

/// Cuts that are equal, with their tasks in order.
struct EqualCuts {
    cut: InsideCut,
    tasks: Vec<TaskId>,
}

/// How a cut waits for another one that is not its equal.
enum Precedence {
    No,
    ForAll,
    /// Each holds the other: for those that are written before it.
    AsWritten,
}

fn precedence(cut: &InsideCut, other: &InsideCut) -> Precedence {
    let is_drill = matches!(other.shape, InsideShape::Drill { .. });
    if other.to < cut.from || (other.from > cut.to && !is_drill) {
        return Precedence::No;
    }
    if must_follow(cut, other) {
        return Precedence::ForAll;
    }
    match (contains(cut, other), contains(other, cut)) {
        (true, false) => Precedence::ForAll,
        (true, true) if !must_follow(other, cut) => Precedence::AsWritten,
        _ => Precedence::No,
    }
}

/// A drill under it comes first, and the mouth it starts behind.
fn must_follow(cut: &InsideCut, other: &InsideCut) -> bool {
    let is_drill = |cut: &InsideCut| matches!(cut.shape, InsideShape::Drill { .. });
    let under = is_drill(other)
        && !is_drill(cut)
        && other.shape.widest() <= cut.shape.widest()
        && other.to > cut.from;
    let mouth = cut.from.is_positive()
        && other.from < cut.from
        && other.to >= cut.from
        && !matches!(other.shape, InsideShape::Countersink { .. });
    under || mouth
}

fn drill(dia: Length, point: Angle) -> InsideShape {
    InsideShape::Drill {
        dia,
        point,
        name: DrillName::Diameter,
        opening: true,
    }
}

fn rank(stage: Stage, cut: &InsideCut) -> Rank {
    let dia = cut.shape.widest().nm();
    let (step, tie) = match cut.shape {
        // The largest first, so that no drill follows a large pilot, which makes it grab.
        InsideShape::Drill { .. } => (DRILL, -dia),
        InsideShape::Ream { .. } => (REAM, dia),
        InsideShape::Bore { .. } | InsideShape::Taper { .. } => (BORE, dia),
        InsideShape::Recess { .. } => (RECESS, dia),
        InsideShape::Countersink { .. } => (MOUTH, dia),
    };
    (stage, step, tie)
}

/// Whether all of `inner` lies within `outer`.
pub(crate) fn contains(outer: &InsideCut, inner: &InsideCut) -> bool {
    let tip = |cut: &InsideCut| match cut.shape {
        InsideShape::Drill { dia, point, .. } => point_length(dia, point),
        _ => Length::ZERO,
    };
    if let (InsideShape::Taper { .. } | InsideShape::Countersink { .. }, _) = (outer.shape, inner) {
        return false;
    }
    // A cone within a cone of the same angle reaches as deep at its own diameter.
    let room = match (outer.shape, inner.shape) {
        (InsideShape::Drill { dia, point, .. }, inner_shape) => {
            let narrower = (dia - inner_shape.widest()).max(Length::ZERO);
            point_length(narrower, point)
        }
        _ => Length::ZERO,
    };
    let bottom = match (outer.shape, inner.shape) {
        (InsideShape::Drill { .. }, InsideShape::Drill { .. }) => inner.to,
        _ => inner.to + tip(inner),
    };
    inner.shape.widest() <= outer.shape.widest()
        && starts(outer) <= starts(inner)
        && (outer.through || bottom <= outer.to + room)
        && (outer.through || !inner.through)
}

/// Drills and reamers come in through the mouth and clear all of it.
fn starts(cut: &InsideCut) -> Length {
    match cut.shape {
        InsideShape::Drill { .. } | InsideShape::Ream { .. } => Length::ZERO,
        _ => cut.from,
    }
}

fn inside_cut(feature: &Feature) -> Option<InsideCut> {
    let shape = match &feature.cut {
        Cut::Drill {
            dia, tool, point, ..
        } => InsideShape::Drill {
            dia: *dia,
            point: *point,
            name: *tool,
            opening: false,
        },
        Cut::Bore { dia, .. } => InsideShape::Bore { dia: *dia },
        Cut::Ream { dia, .. } => InsideShape::Ream { dia: *dia },
        Cut::Recess { dia, .. } => InsideShape::Recess { dia: *dia },
        Cut::Taper { from_dia, to_dia } => InsideShape::Taper {
            from_dia: *from_dia,
            to_dia: *to_dia,
        },
        Cut::Countersink { dia, angle } => InsideShape::Countersink {
            dia: *dia,
            angle: *angle,
        },
        _ => return None,
    };
    Some(InsideCut {
        end: feature.end,
        from: feature.from,
        to: feature.to,
        through: feature.through,
        shape,
    })
}
