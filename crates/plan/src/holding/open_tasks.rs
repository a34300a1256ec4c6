//! Tasks whose turn has come: what they need is done, they are not.

use crate::id::TaskId;
use crate::tasks::task::{Rank, Task, Tasks};
use quillet_model::ById;
use std::collections::BTreeSet;

/// The tasks of a part, by what each still waits for.
pub(super) struct OpenTasks {
    /// How many of its needs each waits for.
    waits: ById<TaskId, usize>,
    /// The tasks that need each.
    needed_by: ById<TaskId, Vec<TaskId>>,
    open: BTreeSet<(Rank, TaskId)>,
}

impl OpenTasks {
    pub(super) fn of(tasks: &Tasks) -> OpenTasks {
        let mut needed_by = tasks.0.map(|_| Vec::new());
        for (index, task) in tasks.0.with_ids() {
            for need in &task.needs {
                needed_by[*need].push(index);
            }
        }
        let numbered = tasks.0.with_ids();
        let open = numbered.filter(|(_, task)| task.needs.is_empty());
        OpenTasks {
            waits: tasks.0.map(|task| task.needs.len()),
            open: open.map(|(index, task)| (task.rank, index)).collect(),
            needed_by,
        }
    }

    /// Those whose turn has come, the first in the order of practice first.
    pub(super) fn in_order(&self) -> impl Iterator<Item = TaskId> {
        self.open.iter().map(|(_, index)| *index)
    }

    /// Takes out one that is done; what waited only for it is open now.
    pub(super) fn finish(&mut self, index: TaskId, tasks: &Tasks) {
        let rank = |task: &Task| task.rank;
        if !self.open.remove(&(rank(&tasks.0[index]), index)) {
            return;
        }
        for next in &self.needed_by[index] {
            self.waits[*next] -= 1;
            if self.waits[*next] == 0 {
                self.open.insert((rank(&tasks.0[*next]), *next));
            }
        }
    }
}
