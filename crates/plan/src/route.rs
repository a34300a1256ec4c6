//! The route of a part: its operations, numbered, in an order that can be done.

use crate::anatomy::Anatomy;
use crate::fill::Filler;
use crate::kit::Kit;
use crate::mate::Mates;
use crate::schedule::{Lathe, Shelf, Step};
use crate::tasks::all_tasks;
use crate::{AskedSize, Blank, Hold, MandrelKind, Operation, Strategy, Trouble};
use quillet_geometry::Length;
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
    /// What the fits of its joints ask of its sizes.
    pub asked: Vec<AskedSize>,
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
    troubles.extend(mandrel_troubles(&operations, shelf));
    Some(Route {
        part: part.clone(),
        blank,
        strategy,
        operations,
        asked: mates.iter().flatten().filter_map(|it| it.asked).collect(),
        troubles,
    })
}

/// A spigot or thread longer than this many times its least diameter chatters (common practice,
/// no published source).
const SLENDER: f64 = 3.0;
/// Thinner than this a mandrel bends, whatever its length (common practice, no published source).
const THIN: Length = Length::from_nm(5_000_000);
/// A thread holds the work by at least so many pitches (common practice, no published source).
const HOLDING_PITCHES: i64 = 3;

/// What is wrong with the mandrels a part is put on, each told once.
fn mandrel_troubles(operations: &[Operation], shelf: &Shelf) -> Vec<Trouble> {
    let mut seen = Vec::new();
    let mut found = Vec::new();
    for operation in operations {
        let Hold::Mandrel(mount) = operation.hold else {
            continue;
        };
        let Some(made) = shelf.mandrels.get(mount.mandrel) else {
            continue;
        };
        if seen.contains(&mount.mandrel) {
            continue;
        }
        seen.push(mount.mandrel);
        let (mandrel, end) = (mount.mandrel, mount.end);
        let (length, dia) = (made.reach(), made.least_dia());
        let hollow = made.kind == MandrelKind::Female;
        if !hollow && (dia < THIN || length.ratio(dia) > SLENDER) {
            found.push(Trouble::SlenderMandrel {
                mandrel,
                end,
                length,
                dia,
            });
        }
        let (length, wanted) = match &made.thread {
            Some(thread) => (made.thread_length, thread.thread.pitch() * HOLDING_PITCHES),
            None if made.kind == MandrelKind::Spigot => (made.reach(), dia.half()),
            None => continue,
        };
        if length < wanted {
            found.push(Trouble::ShortGrip {
                end,
                length,
                wanted,
            });
        }
    }
    found
}
