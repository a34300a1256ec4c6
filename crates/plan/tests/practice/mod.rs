//! What practice asks of a route, rule by rule, with the figures worked out by hand.

mod as_one;
mod beside;
mod crowds;
mod cutting;
mod holding;
mod joined;
mod noticed;
mod slips;
mod stacks;
mod tools;

use super::*;
use quillet_model::End;
use quillet_plan::{Operation, Route};

/// The plan of an example's pen, on the bench it is made at.
fn planned(name: &str) -> Plan {
    let design = example(name);
    let pen = design.pen(name).expect("the pen bears the file's name");
    plan_pen(pen, design.bench(pen.bench.as_ref()).map(AsRef::as_ref))
}

/// A design of this text, with the Saltings bench at hand.
fn written(text: &str) -> Design {
    let text = format!("use \"saltings.quillet\"\n{text}");
    design(
        "own.quillet",
        &[&[("own.quillet", &*text)][..], &SHARED[..]].concat(),
    )
}

fn route<'a>(plan: &'a Plan, part: &str) -> &'a Route {
    let found = plan.routes.iter().find(|it| &*it.part.name.text == part);
    found.unwrap_or_else(|| panic!("{part} has a route"))
}

/// The first operation whose work is as wanted, and its place.
fn find(route: &Route, wanted: impl Fn(&Work) -> bool) -> (usize, &Operation) {
    let found = route.operations.iter().enumerate();
    let mut found = found.filter(|(_, it)| wanted(&it.work));
    found
        .next()
        .unwrap_or_else(|| panic!("{:#?}", route.operations))
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 0.006, "{found}, {wanted}");
}
