//! Which cuts inside one end wait for which.

use super::{InsideTasks, contains};
use crate::id::TaskId;
use crate::{InsideCut, InsideShape};
use quillet_geometry::Length;

impl InsideTasks<'_, '_, '_> {
    /// What lies wholly within another hole is cut before it; what starts behind a mouth
    /// waits for the mouth; bores wait for the drills under them.
    ///
    /// Equal cuts follow one another as they are written, so the first of them waits for the last of
    /// others: what the rest wait for follows.
    pub(super) fn order(&mut self) {
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
}

/// Cuts that are equal, with their tasks in order.
struct EqualCuts {
    pub(super) cut: InsideCut,
    pub(super) tasks: Vec<TaskId>,
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

/// Drills and reamers come in through the mouth and clear all of it.
pub(super) fn starts(cut: &InsideCut) -> Length {
    match cut.shape {
        InsideShape::Drill { .. } | InsideShape::Ream { .. } => Length::ZERO,
        _ => cut.from,
    }
}
