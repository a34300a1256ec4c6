//! Cuts from the side: on the mandrel when the outside is turned, before it is sanded.

use crate::Work;
use crate::id::TaskId;
use crate::tasks::task::{Access, Stage, Tasks};
use quillet_model::{Part, SideCut, SideCutKind, SideDepth, SideId};

/// One task a cut, in the order of practice; returns the tasks added.
///
/// Patterns are cut while the work is round and stiff, then flats, then what opens the wall. Which
/// of two like cuts comes first, the design says.
pub(crate) fn side_tasks(part: &Part, start: &[TaskId], tasks: &mut Tasks) -> Vec<TaskId> {
    let cuts = part.sides().iter().enumerate();
    let mut cuts: Vec<(usize, &SideCut)> = cuts.collect();
    cuts.sort_by_key(|(index, cut)| (step(cut), *index));
    let mut added = Vec::new();
    for (index, cut) in cuts {
        let work = Work::Side {
            cut: SideId::nth(index),
            places: places(cut),
        };
        let rank = (Stage::Outside, 40 + step(cut), index as i64);
        let needs = start.iter().chain(&added).copied().collect();
        added.push(tasks.put(work, Access::Outside, rank, needs));
    }
    added
}

fn step(cut: &SideCut) -> u8 {
    match cut.kind {
        SideCutKind::Pattern { .. } => 0,
        SideCutKind::Across { .. } | SideCutKind::Deep(_) | SideCutKind::Sharp => 1,
        SideCutKind::Slot { .. } => 2,
        SideCutKind::Drill { .. } => 3,
    }
}

/// At how many places the spindle is locked: a cut right through makes two of an even number.
fn places(cut: &SideCut) -> u32 {
    let count = cut.around.count;
    match cut.kind {
        SideCutKind::Drill { depth, .. } | SideCutKind::Slot { depth, .. }
            if depth == SideDepth::Through && count.is_multiple_of(2) =>
        {
            count / 2
        }
        _ => count,
    }
}
