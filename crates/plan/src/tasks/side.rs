//! Cuts from the side: on the mandrel when the outside is turned, before it is sanded.

use crate::Work;
use crate::id::TaskId;
use crate::tasks::task::{Access, Stage, Tasks};
use quillet_geometry::Length;
use quillet_model::{End, Part, SideCut, SideCutKind, SideDepth, SideId};

/// One task a cut, in the order of practice; returns the tasks added.
///
/// Patterns are cut while the work is round and stiff, then flats, then what opens the wall. Which
/// of two like cuts comes first, the design says. What opens the wall of the end where the tail centre
/// stands is cut without it.
pub(crate) fn side_tasks(
    part: &Part,
    centred: Option<End>,
    start: &[TaskId],
    tasks: &mut Tasks,
) -> Vec<TaskId> {
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
        let access = match centred.filter(|end| opens(part, cut, *end)) {
            Some(end) => Access::End(end),
            None => Access::Outside,
        };
        added.push(tasks.put(work, access, rank, needs));
    }
    added
}

/// Whether the wall at an end is opened: a centre in its mouth is in the cutter's way, and spreads what
/// the cuts leave.
pub(crate) fn opens_end(part: &Part, end: End) -> bool {
    part.sides().iter().any(|it| opens(part, it, end))
}

fn opens(part: &Part, cut: &SideCut, end: End) -> bool {
    let reaches = match end {
        End::First => cut.stretch.from <= Length::ZERO,
        End::Second => cut.stretch.to >= part.length,
    };
    let through = match cut.kind {
        SideCutKind::Slot { depth, .. } | SideCutKind::Drill { depth, .. } => {
            !matches!(depth, SideDepth::To { .. })
        }
        _ => false,
    };
    reaches && through
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
