//! Holes on a pitch circle: at the end that they are cut from, the spindle locked at each of them.

use crate::id::TaskId;
use crate::tasks::task::{Access, Rank, Tasks};
use crate::{InsideCut, Work};
use quillet_model::{CircleId, End, Part};

/// One task a statement, after the face and what is cut inside before the place where they begin; what is
/// bored on the axis comes afterwards.
pub(crate) fn beside_tasks(
    part: &Part,
    end: End,
    rank: impl Fn(i64) -> Rank,
    start: &[TaskId],
    tasks: &mut Tasks,
) {
    for (nth, holes) in part.circles().iter().enumerate() {
        if holes.end != end {
            continue;
        }
        let before = |cut: &InsideCut| cut.end == end && cut.from < holes.from;
        let opening = tasks.0.with_ids().filter_map(|(id, it)| match it.work() {
            Some(Work::Inside(cut)) if before(cut) => Some(id),
            _ => None,
        });
        let needs = start.iter().copied().chain(opening).collect();
        let work = Work::Beside {
            holes: CircleId::nth(nth),
            end,
            places: holes.around.count,
        };
        tasks.put(work, Access::End(end), rank(nth as i64), needs);
    }
}

/// Whether any are cut from an end.
pub(crate) fn beside_at(part: &Part, end: End) -> bool {
    part.circles().iter().any(|it| it.end == end)
}
