//! The plan of a pen of which something is made: how it is drawn to be made, what of that is done, and what
//! is asked of the rest to suit it.

mod mandrels;
mod moved;
mod sizes;
pub(crate) mod suit;

use crate::output::operation::AsMade;
use crate::{Operation, Plan, Route, Work, plan_pen};
use quillet_model::{Bench, Made, PartId, Pen};
use sizes::MadeSizes;
use suit::{Suited, suited};

/// Plans a pen as it is drawn, and lays over that what `made`, one of it, is measured to be. A row that is
/// made has what was read; what is not made yet goes where a face in its plane was measured, and what goes
/// into a hole that is made, mandrels too, is asked by the hole as it came out.
pub fn plan_made(drawn: &Pen, made: &Pen, bench: Option<&Bench>) -> Plan {
    let mut plan = plan_pen(drawn, bench);
    let Some(what) = made.made.as_deref() else {
        return plan;
    };
    for route in plan.routes.iter_mut() {
        if let Some(id) = drawn.part_id(&route.part.name.text) {
            lay_over(route, (drawn, made), (what, id), bench);
        }
    }
    mandrels::suit(&mut plan, made, bench);
    plan
}

fn lay_over(
    route: &mut Route,
    (drawn, made): (&Pen, &Pen),
    (what, id): (&Made, PartId),
    bench: Option<&Bench>,
) {
    let Some((was, is)) = drawn.parts.get(id).zip(made.parts.get(id)) else {
        return;
    };
    let sizes = MadeSizes {
        part: id,
        was,
        is,
        statements: &what.statements,
    };
    let mut suits: Vec<Suited> = suited(drawn, made, what, id);
    // Of what is made already nothing more is asked.
    suits.retain(|it| !sizes.has(it.origin));
    for operation in &mut route.operations {
        operation.as_made = sizes.read(operation);
        if operation.as_made.is_none() {
            moved::go_along(operation, &sizes);
            suit::ask(operation, was, &suits, bench);
        }
    }
    done_before(&mut route.operations);
    route.outside_as_made = sizes.outside();
}

/// What comes before a row that is made is done, where it is no cut of its own: the work was sawn, faced
/// and centred.
fn done_before(operations: &mut [Operation]) {
    let made = |it: &(usize, &Operation)| it.1.as_made.is_some();
    let mut open: Vec<usize> = operations
        .iter()
        .enumerate()
        .filter(made)
        .map(|it| it.0)
        .collect();
    let mut seen = open.clone();
    while let Some(at) = open.pop() {
        for need in operations[at].needs.clone() {
            if seen.contains(&need) {
                continue;
            }
            seen.push(need);
            open.push(need);
            let before = &mut operations[need];
            if before.features.is_empty() && !matches!(before.work, Work::Try(_)) {
                before.as_made.get_or_insert(AsMade::default());
            }
        }
    }
}
