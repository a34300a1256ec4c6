//! Threads outside: from where the die comes, on what land, over how thin a wall.

use super::{OutsideLayout, RUN_OUT, TURN};
use crate::id::TaskId;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::task::Tasks;
use crate::{ThreadCut, Threading, TurnCut, TurnKind, Unschedulable, Work};
use quillet_geometry::Length;
use quillet_model::{CutId, End, Feature, Origin, Part, ThreadDef};
use std::sync::Arc;

/// A tenon whose wall under the thread is thinner than this is plugged before a die is run
/// over it (common practice, no published source).
const THIN_UNDER_DIE_MM: f64 = 1.5;

/// A thread, by a tool that comes from an end: its own, or the other one.
pub(super) fn thread_cut(
    part: &Part,
    feature: &Feature,
    thread: &Arc<ThreadDef>,
    end: End,
    method: Threading,
) -> ThreadCut {
    let (from, to) = match end == feature.end {
        true => (feature.from, feature.to),
        false => (part.length - feature.to, part.length - feature.from),
    };
    ThreadCut {
        end,
        inside: false,
        thread: thread.clone(),
        from,
        to,
        method,
    }
}

/// Where neither tenon nor station leaves a land under a thread, it is turned to the major.
pub(super) fn land_task(
    feature_map: &FeatureMap,
    index: CutId,
    place: &OutsideLayout,
    tasks: &mut Tasks,
) -> Option<(TurnCut, TaskId)> {
    let part = feature_map.part;
    let profiles = part.profiles.as_ref()?;
    let own =
        profiles.turned().segments().iter().filter(|it| {
            profiles.origin(it.tag) == Origin::Feature(index) && !it.curve.is_vertical()
        });
    let ends: Vec<f64> = own
        .flat_map(|it| [it.curve.start().z, it.curve.end().z])
        .collect();
    let low = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if low >= high {
        return None;
    }
    let feature = &part.features[index];
    let (low, high) = (Length::mm(low), Length::mm(high));
    let (from, to) = match place.end {
        End::First => (low, high),
        End::Second => (part.length - high, part.length - low),
    };
    let dia = feature.dia()?;
    let cut = TurnCut {
        end: place.end,
        kind: TurnKind::ThreadLand,
        dia,
        from,
        to,
    };
    let task = tasks.put(
        Work::Turn(cut),
        place.access,
        (place.stage, TURN, -dia.nm()),
        place.start.to_vec(),
    );
    Some((cut, task))
}

/// Lands under and ahead of a thread are turned before it. A relief behind it follows a die,
/// which could not run into it clean, and precedes a single point, which must.
pub(super) fn around_thread(
    thread: &Feature,
    from: End,
    method: Threading,
    task: TaskId,
    turned: &[(TurnCut, TaskId)],
    tasks: &mut Tasks,
) {
    for (cut, other) in turned {
        let behind = match from == thread.end {
            true => cut.from >= thread.to,
            false => cut.to <= thread.from,
        };
        let behind = behind && cut.kind != TurnKind::Tenon;
        if behind && method == Threading::Die {
            tasks.before(task, *other);
            let (stage, _, tie) = tasks.0[*other].rank;
            tasks.0[*other].rank = (stage, RUN_OUT, tie);
        } else {
            tasks.before(*other, task);
        }
    }
}

/// Whether the wall between a thread's root and the hole under it is thin.
pub(super) fn thin_under(part: &Part, feature: &Feature, thread: &ThreadDef) -> bool {
    let Some(profiles) = &part.profiles else {
        return false;
    };
    // A hole from the other end is not there yet.
    let bored = |it: &Feature| it.end == feature.end && it.is_inside() && it.to > feature.from;
    if !part.features.iter().any(bored) {
        return false;
    }
    let (from, to) = feature.stations(part.length);
    let widest = profiles.root.inner.iter().filter_map(|chain| {
        chain
            .fattest(from.to_mm(), to.to_mm())
            .map(|(place, _)| place.r)
    });
    let widest = widest.fold(0.0, f64::max);
    widest > 0.0 && thread.thread.root_diameter().to_mm() / 2.0 - widest < THIN_UNDER_DIE_MM
}

/// The end from which a die can come to a thread within the outside.
pub(super) fn die_from(
    feature_map: &FeatureMap,
    feature: &Feature,
    thread: &ThreadDef,
) -> Result<End, Unschedulable> {
    let part = feature_map.part;
    let (from, to) = feature.stations(part.length);
    let root = thread.thread.root_diameter();
    let fattest = |end: End| {
        let (a, b) = match end {
            End::First => (Length::ZERO, from),
            End::Second => (to, part.length),
        };
        // A face at the thread's own edge is the thread's.
        feature_map
            .outer
            .fattest(a.to_mm() + 1e-6, b.to_mm() - 1e-6)
            .map(|(place, _)| (Length::mm(place.z), Length::mm(place.r * 2.0)))
    };
    let mut blocked = None;
    for end in [feature.end, feature.end.other()] {
        match fattest(end) {
            Some((at, dia)) if dia > root => blocked = blocked.or(Some((at, dia))),
            _ => return Ok(end),
        }
    }
    let (at, dia) = blocked.unwrap_or_default();
    Err(Unschedulable::DieBlocked { at, dia, root })
}
