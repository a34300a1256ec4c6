//! Tasks: what must be done to a part, what each needs before it, and where the tool comes from.

use crate::id::TaskId;
use crate::{RouteId, Work};
use quillet_geometry::Length;
use quillet_model::{ById, CutId, End, PieceId};

/// Something to do, not yet in its place.
#[derive(Clone, Debug)]
pub(crate) struct Task {
    pub(crate) work: TaskWork,
    /// The cuts it finishes.
    pub(crate) features: Vec<CutId>,
    pub(crate) access: Access,
    /// Tasks that must come before.
    pub(crate) needs: Vec<TaskId>,
    /// Of what can be done, the least comes first: the order of practice.
    pub(crate) rank: Rank,
}

impl Task {
    /// The end it is cut at.
    pub(crate) fn end(&self) -> Option<End> {
        match self.work()? {
            Work::Inside(cut) => Some(cut.end),
            Work::Thread(cut) => Some(cut.end),
            Work::Turn(cut) => Some(cut.end),
            Work::BreakCorner { end, .. } | Work::Beside { end, .. } => Some(*end),
            _ => None,
        }
    }

    /// Its work, as far as that is known before it is done.
    pub(crate) fn work(&self) -> Option<&Work> {
        match &self.work {
            TaskWork::Known(work) => Some(work),
            TaskWork::Plug => None,
        }
    }
}

/// What a task does.
#[derive(Clone, Debug)]
pub(crate) enum TaskWork {
    /// Work of which all is known.
    Known(Work),
    /// Plugging the bore, by a plug that is made, or one of the plan's taken again, only then.
    Plug,
}

impl From<Work> for TaskWork {
    fn from(work: Work) -> TaskWork {
        TaskWork::Known(work)
    }
}

/// Where the tool comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Access {
    /// Off the lathe.
    Bench,
    /// Pieces of a glued blank, as far as they are glued.
    Pieces {
        /// The first of them.
        from: PieceId,
        /// The last: it is worked on.
        to: PieceId,
    },
    /// Between centres.
    Centres,
    /// This end must stand free.
    End(End),
    /// The outside between the ends.
    Outside,
    /// Both parts joined, between the nub of one and what supports the other.
    Together {
        /// This part's nub is the one that is gripped.
        gripped: bool,
    },
}

/// The order of practice: a stage, a step in it, and a tie-breaker.
pub(crate) type Rank = (Stage, u8, i64);

/// The stages of making a part, in the usual order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Stage {
    Blank,
    FarCentre,
    FirstEnd,
    Part,
    SecondEnd,
    Outside,
    Finish,
}

/// A list of tasks that knows its own length.
#[derive(Default)]
pub(crate) struct Tasks(pub(crate) ById<TaskId, Task>);

impl Tasks {
    pub(crate) fn add(&mut self, task: Task) -> TaskId {
        self.0.push(task)
    }

    /// Adds with the parts said in order.
    pub(crate) fn put(
        &mut self,
        work: impl Into<TaskWork>,
        access: Access,
        rank: Rank,
        needs: Vec<TaskId>,
    ) -> TaskId {
        self.add(Task {
            work: work.into(),
            features: Vec::new(),
            access,
            needs,
            rank,
        })
    }

    /// All that is cut inside from an end, so far.
    pub(crate) fn all_inside(&self, end: End) -> Vec<TaskId> {
        let is_inside = |task: &Task| match task.work() {
            Some(Work::Inside(cut)) => cut.end == end,
            Some(Work::Thread(cut)) => cut.inside && cut.end == end,
            _ => false,
        };
        self.0
            .ids()
            .filter(|index| is_inside(&self.0[*index]))
            .collect()
    }

    /// Those added since there were so many.
    pub(crate) fn since(&self, count: usize) -> impl Iterator<Item = TaskId> + use<> {
        self.0.ids().skip(count)
    }

    /// Makes one task wait for another.
    pub(crate) fn before(&mut self, first: TaskId, then: TaskId) {
        let needs = &mut self.0[then].needs;
        if first != then && !needs.contains(&first) {
            needs.push(first);
        }
    }
}

/// With which route a part is turned joined.
#[derive(Clone, Copy)]
pub(crate) struct BlendPartner {
    pub(crate) route: RouteId,
    /// This part's nub is the one that is gripped.
    pub(crate) gripped: bool,
    /// How far the one is in the other when it is home.
    pub(crate) goes_in: Length,
}

impl BlendPartner {
    /// What is done to the two while they are joined.
    pub(crate) fn access(self) -> Access {
        Access::Together {
            gripped: self.gripped,
        }
    }
}
