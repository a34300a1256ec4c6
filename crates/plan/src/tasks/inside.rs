//! Tasks inside: holes, bores, threads and mouths from one end.

mod opened;
mod order;

use crate::id::TaskId;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::task::{Access, Rank, Stage, Task, Tasks};
use crate::tools::bench_tools::BenchTools;
use crate::{InsideCut, InsideShape, PlanProblem, ThreadCut, Work};
use order::starts;
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
