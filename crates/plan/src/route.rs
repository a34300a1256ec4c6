//! How a route is found: the operations of a part, numbered, in an order that can be done.
//!
//! Nothing here is a script of steps. What must be done is listed with what it waits for, and the
//! order comes of that, of where each tool has to come from, and of what is still there to be held.
//!
//! 1. **The part as the lathe sees it** ([`FeatureMap`]): which cuts belong to the zone turned at
//!    each end, which stretches follow the stations, which ends are open.
//! 2. **The broad choices** ([`Strategy`]): the mandrel that suits best says which end is cut first
//!    (its own, while there is stock to grip); a closed far end keeps a centre nub; a part that
//!    nothing can be screwed or pushed into is turned whole from a stub and parted.
//! 3. **The blank** ([`Blank`]): part, facing, nub and stub, on the diameter a collet grips.
//! 4. **The tasks** ([`all_tasks`]): each is a piece of [`Work`](crate::Work) with the cuts it
//!    finishes, the access it asks for (an end free, the outside, between centres, the bench),
//!    the tasks it needs before it, and a rank: the order of practice. Needs are few and each has a
//!    reason: a hole waits for the drills under it, a thread for its hole, a die for its plug, the
//!    outside for both ends. Gates are tasks too: a mate is tried after all that it touches or
//!    passes.
//! 5. **The order** ([`WorkState::next`]): of the tasks whose needs are met, by rank, the first that the
//!    present hold gives access to is done. Where the hold gives none, the first task for which a
//!    hold can be taken decides it: uncut stock in a collet while it lasts, else the mandrel. What
//!    is left over when nothing more can be done is told as a [`PlanProblem`], with why.
//! 6. **The operation** ([`OperationBuilder`]): tool, depth, speed, pecks, limits and notes are filled in for
//!    the place in the order that the task got; a hole that an earlier one has cut already is left
//!    out.
//!
//! 7. **The numbers to set**: one speed a holding, from the lathe's own steps.
//!
//! A part that is turned joined with its mate waits for it: routes are joined into one sequence in
//! [`plan_pen`](crate::plan_pen). A blank of several pieces comes first of all: faced, bored, glued
//! and trued, a thin piece where it is glued.
//!
//! # A worked example
//!
//! A plain ferrule: `length 30`, drilled 9.3 to 12 and tapped M10x0.75 from its mouth, its tail
//! closed by a dome.
//!
//! * The thread inside the mouth takes a male mandrel (its mate's tenon will be cut with the same
//!   die): the mouth is cut first, and the tail keeps a nub.
//! * Blank: 2.5 to face, 30, a nub of 6, 2.5 to face.
//! * Tasks, with what they need: saw; face the nub (saw) and centre it; face the mouth (nub
//!   centred), centre it, drill 9.3 (centre), tap (drill); rough the outside (all of these), turn
//!   it, take the nub off (turned), polish (nub off).
//! * Order: facing the nub asks for the tail free, so the collet grips the other end; facing the
//!   mouth asks for the mouth free, so the work is turned about; there the mouth, the hole
//!   and the thread follow by rank without another hold. Roughing asks for the outside: the mandrel
//!   is taken, the tail centre in the nub, and all that is left is done on it.

use crate::holding::mandrel_set::MandrelSet;
use crate::holding::one_speed::one_speed_a_holding;
use crate::holding::schedule::{ScheduleStep, WorkState};
use crate::output::operation_builder::OperationBuilder;
use crate::tasks::all::all_tasks;
use crate::tasks::as_one::Extent;
use crate::tasks::crowd::crowd;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::mate::Mates;
use crate::tasks::task::Tasks;
use crate::tools::bench_tools::BenchTools;
use crate::{
    AskedSize, Blank, MandrelKind, Operation, PlanProblem, Strategy, TailSupport, Workholding,
};
use quillet_geometry::Length;
use quillet_model::{AsOne, Part};
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
    /// How far it and the mate that it is turned joined with are in one another when they are home.
    pub joined_by: Option<Length>,
    /// The parts whose outsides it turns as one, where it makes nothing else.
    pub turns: Option<Arc<AsOne>>,
    /// The work in which its outside is turned with others, by name.
    pub outside_in: Option<Arc<str>>,
    /// What stands in the way.
    pub problems: Vec<PlanProblem>,
    /// Where, stations, diameters of its outside were read, and what was.
    pub outside_as_made: Vec<(Length, Length)>,
}

/// Operations done in one hold, one after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Holding {
    /// How the work is held.
    pub hold: Workholding,
    /// Which of the route's operations, taking hold counted.
    pub operations: std::ops::Range<usize>,
    /// The number the lathe is set to for most of it, where it is known.
    pub set_rev_min: Option<f64>,
}

impl Route {
    /// The route by holdings: each time the work is held otherwise a new one begins. A tail centre that
    /// is only drawn back, or comes up again, begins none.
    pub fn holdings(&self) -> Vec<Holding> {
        let mut from = 0;
        let held = stretches(&self.operations).into_iter();
        let each = held.map(|operations| {
            let start = from;
            from += operations.len();
            let set = operations
                .iter()
                .filter_map(|it| it.speed.as_ref()?.set_rev_min);
            let set: Vec<f64> = set.collect();
            let often = |rev_min: &f64| set.iter().filter(|it| *it == rev_min).count();
            Holding {
                hold: operations[0].hold,
                operations: start..from,
                set_rev_min: set
                    .iter()
                    .copied()
                    .reduce(|best, it| if often(&it) > often(&best) { it } else { best }),
            }
        });
        each.collect()
    }
}

/// Operations in one holding each: on a mandrel the centre may be drawn back and come up again.
fn stretches(operations: &[Operation]) -> Vec<&[Operation]> {
    let goes_on = |begun: Workholding, next: Workholding| match (begun, next) {
        (Workholding::Mandrel(a), Workholding::Mandrel(b)) => {
            let same = (a.mandrel, a.end) == (b.mandrel, b.end);
            same && (b.tail == TailSupport::Free || b.tail == a.tail)
        }
        _ => begun == next,
    };
    let mut rest = operations;
    let mut found = Vec::new();
    while let Some(first) = rest.first() {
        let ends = rest.iter().position(|it| !goes_on(first.hold, it.hold));
        let (held, after) = rest.split_at(ends.unwrap_or(rest.len()));
        found.push(held);
        rest = after;
    }
    found
}

/// Works out the route of a part; none where its shape could not be worked out.
pub(crate) fn route(
    part: &Arc<Part>,
    feature_map: FeatureMap,
    mates: &Mates,
    extent: Extent,
    bench_tools: BenchTools,
    mandrel_set: &mut MandrelSet,
) -> Route {
    let mut problems = Vec::new();
    let strategy = extent.strategy(&feature_map, mates, bench_tools);
    let blended = extent.blended();
    let nub = extent.nub(&feature_map, &strategy);
    let blank = match &extent {
        Extent::Outside(begun) => begun.blank.clone(),
        _ => Blank::of(&feature_map, &strategy, nub, bench_tools, &mut problems),
    };
    let crowd = crowd(part);
    let tasks = match &crowd {
        Some(_) => Tasks::default(),
        None => all_tasks(
            &feature_map,
            &strategy,
            &blank,
            mates,
            &extent,
            bench_tools,
            &mut problems,
        ),
    };
    problems.extend(crowd);
    let mut lathe = WorkState::new(
        &feature_map,
        strategy,
        &blank,
        mates,
        bench_tools,
        &tasks,
        extent.turned(),
    );
    let mut builder = OperationBuilder::new(&feature_map, &blank, mates, bench_tools, &tasks);
    while let Some(step) = lathe.next(&tasks, mandrel_set, &mut problems) {
        match step {
            ScheduleStep::Take(hold) => builder.take(hold, mandrel_set),
            ScheduleStep::Do(index) => {
                builder.work(index, &tasks.0[index], &lathe, mandrel_set, &mut problems);
                lathe.finish(index, &tasks);
            }
        }
    }
    let mut operations = builder.operations;
    let lathe = bench_tools.bench.and_then(|bench| bench.lathe.as_ref());
    one_speed_a_holding(&mut operations, lathe);
    problems.extend(mandrel_problems(&operations, mandrel_set));
    Route {
        part: part.clone(),
        blank,
        strategy,
        operations,
        asked: mates.iter().flatten().filter_map(|it| it.asked).collect(),
        joined_by: blended.map(|it| it.goes_in),
        turns: None,
        outside_in: None,
        problems,
        outside_as_made: Vec::new(),
    }
}

/// A spigot or thread longer than this many times its least diameter chatters (common practice,
/// no published source).
const SLENDER: f64 = 3.0;
/// Thinner than this a mandrel bends, whatever its length (common practice, no published source).
const THIN: Length = Length::from_nm(5_000_000);
/// A shoulder that bears on less than this tilts and bruises (common practice, no published source).
const BEARING: Length = Length::from_nm(300_000);
/// A thread holds the work by at least so many pitches (common practice, no published source).
const HOLDING_PITCHES: i64 = 3;
/// The pitch of an inch thread is rounded to a nanometre: what is reckoned from several is out by as
/// many halves.
const ROUNDING: Length = Length::from_nm(10);

/// What is wrong with the mandrels a part is put on, each told once.
fn mandrel_problems(operations: &[Operation], mandrel_set: &MandrelSet) -> Vec<PlanProblem> {
    let mut seen = Vec::new();
    let mut found = Vec::new();
    for operation in operations {
        let Workholding::Mandrel(mount) = operation.hold else {
            continue;
        };
        let Some(made) = mandrel_set.mandrels.get(mount.mandrel) else {
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
            found.push(PlanProblem::SlenderMandrel {
                mandrel,
                end,
                length,
                dia,
            });
        }
        if let Some(ring) = made.bearing.filter(|ring| *ring < BEARING) {
            let wanted = BEARING;
            found.push(PlanProblem::NarrowBearing { end, ring, wanted });
        }
        let (length, wanted) = match &made.thread {
            Some(thread) => (made.thread_length, thread.thread.pitch() * HOLDING_PITCHES),
            None if made.kind == MandrelKind::Spigot => (made.reach(), dia.half()),
            None => continue,
        };
        let inch = made.thread.as_ref().is_some_and(|it| it.thread.is_inch());
        let rounding = if inch { ROUNDING } else { Length::ZERO };
        if wanted - length > rounding {
            found.push(PlanProblem::ShortGrip {
                end,
                length,
                wanted,
            });
        }
    }
    found
}
