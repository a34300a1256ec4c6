//! Tasks outside: tenons, reliefs, threads and broken corners of an end, and what is cut in
//! the shaped outside between.

mod threads;

use crate::id::TaskId;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::task::{Access, Stage, Task, TaskWork, Tasks};
use crate::tools::bench_tools::BenchTools;
use crate::{PlanProblem, Threading, TurnCut, TurnKind, Work};
use quillet_model::{Cut, End, Feature};
use quillet_syntax::ast::Side;
use threads::{around_thread, die_from, land_task, thin_under, thread_cut};

/// Practice within an end, after all that is cut inside.
const TURN: u8 = 10;
const CORNER: u8 = 11;
const SUPPORT: u8 = 12;
const THREAD: u8 = 13;
const RUN_OUT: u8 = 14;
/// After the polish that gives the outside its size.
const BODY_CORNER: u8 = 32;

/// What outside tasks are put where.
pub(crate) struct OutsideLayout<'a> {
    pub(crate) end: End,
    pub(crate) stage: Stage,
    pub(crate) access: Access,
    /// What comes before any of them.
    pub(crate) start: &'a [TaskId],
}

/// Adds what is turned at an end before the outside is shaped.
pub(crate) fn zone_tasks(
    feature_map: &FeatureMap,
    place: &OutsideLayout,
    bench_tools: BenchTools,
    tasks: &mut Tasks,
) {
    let part = feature_map.part;
    let own = |it: &Feature| it.end == place.end && !it.is_inside() && feature_map.in_zone(it);
    let mut turned = turn_tasks(feature_map, place, tasks, own);
    let corners = corner_tasks(feature_map, place, tasks, &turned, true);
    for (index, feature) in part.features.with_ids() {
        let Some((thread, Side::Outside)) = feature.thread() else {
            continue;
        };
        if !own(feature) {
            continue;
        }
        turned.extend(land_task(feature_map, index, place, tasks));
        let method = bench_tools.threading(&thread.thread, false);
        let mut needs = [place.start, &corners].concat();
        if method == Threading::Die && thin_under(part, feature, thread) {
            let mut before = place.start.to_vec();
            before.extend(tasks.all_inside(place.end));
            let plug = tasks.put(
                TaskWork::Plug,
                place.access,
                (place.stage, SUPPORT, 0),
                before,
            );
            needs.push(plug);
        }
        let rank = (place.stage, THREAD, feature.from.nm());
        let work = Work::Thread(thread_cut(part, feature, thread, place.end, method));
        let features = vec![index];
        let task = tasks.add(Task {
            work: work.into(),
            features,
            access: place.access,
            needs,
            rank,
        });
        around_thread(feature, place.end, method, task, &turned, tasks);
    }
}

/// Adds the grooves, threads and corners in the shaped outside, after it has been turned.
pub(crate) fn body_tasks(
    feature_map: &FeatureMap,
    shaped: &[TaskId],
    bench_tools: BenchTools,
    tasks: &mut Tasks,
    problems: &mut Vec<PlanProblem>,
) {
    let part = feature_map.part;
    for end in crate::tasks::feature_map::ENDS {
        let place = OutsideLayout {
            end,
            stage: Stage::Finish,
            access: Access::Outside,
            start: shaped,
        };
        let own = |it: &Feature| it.end == end && !it.is_inside() && !feature_map.in_zone(it);
        let mut turned = turn_tasks(feature_map, &place, tasks, own);
        for (index, feature) in part.features.with_ids() {
            let Some((thread, Side::Outside)) = feature.thread() else {
                continue;
            };
            if !own(feature) {
                continue;
            }
            turned.extend(land_task(feature_map, index, &place, tasks));
            let method = bench_tools.threading(&thread.thread, false);
            let (from, access) = match method {
                Threading::SinglePoint => (end, Access::Outside),
                _ => match die_from(feature_map, feature, thread) {
                    Ok(from) => (from, Access::End(from)),
                    Err(why) => {
                        problems.push(PlanProblem::NoOrder {
                            feature: Some(index),
                            why,
                        });
                        (end, Access::Outside)
                    }
                },
            };
            let rank = (Stage::Finish, THREAD, feature.from.nm());
            let work = Work::Thread(thread_cut(part, feature, thread, from, method));
            let (features, needs) = (vec![index], shaped.to_vec());
            let task = tasks.add(Task {
                work: work.into(),
                features,
                access,
                needs,
                rank,
            });
            around_thread(feature, from, method, task, &turned, tasks);
        }
    }
}

/// Adds the corners of the shaped outside, broken once it has its size; the tasks added.
pub(crate) fn body_corners(
    feature_map: &FeatureMap,
    access: Access,
    sized: &[TaskId],
    tasks: &mut Tasks,
) -> Vec<TaskId> {
    let place = |end| OutsideLayout {
        end,
        stage: Stage::Finish,
        access,
        start: sized,
    };
    let each = crate::tasks::feature_map::ENDS
        .map(|end| corner_tasks(feature_map, &place(end), tasks, &[], false));
    each.concat()
}

fn turn_tasks(
    feature_map: &FeatureMap,
    place: &OutsideLayout,
    tasks: &mut Tasks,
    own: impl Fn(&Feature) -> bool,
) -> Vec<(TurnCut, TaskId)> {
    let mut turned = Vec::new();
    for (index, feature) in feature_map.part.features.with_ids() {
        let (kind, dia) = match &feature.cut {
            Cut::Tenon { dia, .. } => (TurnKind::Tenon, *dia),
            Cut::Relief { dia } => (TurnKind::Relief, *dia),
            Cut::Groove { dia, .. } => (TurnKind::Groove, *dia),
            _ => continue,
        };
        if !own(feature) {
            continue;
        }
        let cut = TurnCut {
            end: place.end,
            kind,
            dia,
            from: feature.from,
            to: feature.to,
        };
        let task = tasks.add(Task {
            work: Work::Turn(cut).into(),
            features: vec![index],
            access: place.access,
            needs: place.start.to_vec(),
            // From the fattest down: each takes something off what the one before left.
            rank: (place.stage, TURN, -dia.nm()),
        });
        turned.push((cut, task));
    }
    turned
}

fn corner_tasks(
    feature_map: &FeatureMap,
    place: &OutsideLayout,
    tasks: &mut Tasks,
    turned: &[(TurnCut, TaskId)],
    in_zone: bool,
) -> Vec<TaskId> {
    let mut corners = Vec::new();
    for (index, feature) in feature_map.part.features.with_ids() {
        let Cut::Edge(edge) = feature.cut else {
            continue;
        };
        if feature.end != place.end || feature_map.in_zone(feature) != in_zone {
            continue;
        }
        let at_face = turned
            .iter()
            .filter(|it| !it.0.from.is_positive())
            .map(|it| it.1);
        let mut needs = place.start.to_vec();
        needs.extend(at_face);
        corners.push(tasks.add(Task {
            work: TaskWork::Known(Work::BreakCorner {
                end: place.end,
                edge,
            }),
            features: vec![index],
            access: place.access,
            needs,
            rank: (place.stage, if in_zone { CORNER } else { BODY_CORNER }, 0),
        }));
    }
    corners
}
