//! The route of a part: its operations, numbered, in an order that can be done.

use crate::anatomy::Anatomy;
use crate::fill::Filler;
use crate::kit::Kit;
use crate::mate::Mates;
use crate::schedule::{Lathe, Shelf, Step};
use crate::tasks::all_tasks;
use crate::{Blank, Operation, Strategy, Trouble};
use quillet_model::Part;
use std::sync::Arc;

/// How a part is made.
#[derive(Clone, Debug)]
pub struct Route {
    /// The part.
    pub part: Arc<Part>,
    /// The blank it is cut from.
    pub blank: Blank,
    /// The broad choices behind it.
    pub strategy: Strategy,
    /// What is done, in order; the first is number 1.
    pub operations: Vec<Operation>,
    /// What stands in the way.
    pub troubles: Vec<Trouble>,
}

/// Works out the route of a part; none where its shape could not be worked out.
pub(crate) fn route(
    part: &Arc<Part>,
    mates: &Mates,
    blended: Option<usize>,
    kit: Kit,
    shelf: &mut Shelf,
) -> Option<Route> {
    let anatomy = Anatomy::of(part)?;
    let mut troubles = Vec::new();
    let strategy = Strategy::of(&anatomy, mates, kit);
    let blank = Blank::of(&anatomy, &strategy, kit, &mut troubles);
    let blended = blended.filter(|_| strategy.nub.is_some());
    let tasks = all_tasks(
        &anatomy,
        &strategy,
        &blank,
        mates,
        blended,
        kit,
        &mut troubles,
    );
    let mut lathe = Lathe::new(&anatomy, strategy, &blank, mates, kit, &tasks);
    let mut filler = Filler::new(&anatomy, &blank, mates, kit, tasks.0.len());
    while let Some(step) = lathe.next(&tasks, shelf, &mut troubles) {
        match step {
            Step::Take(hold) => filler.take(hold, shelf),
            Step::Do(index) => {
                filler.work(index, &tasks.0[index], &lathe, shelf, &mut troubles);
                lathe.finish(index, &tasks.0[index]);
            }
        }
    }
    let operations = filler.operations;
    Some(Route {
        part: part.clone(),
        blank,
        strategy,
        operations,
        troubles,
    })
}
