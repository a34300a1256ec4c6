//! Routes, carried out on a simulated lathe: each ends at the designed part.

mod lathe;

use quillet_model::{Design, Texts, load, resolve};
use quillet_plan::{Plan, plan_part, plan_pen};
use std::path::Path;

fn design(path: &str, texts: &[(&str, &str)]) -> Design {
    let texts = texts.iter().fold(Texts::default(), |texts, (name, text)| {
        texts.with(name, text)
    });
    let design = resolve(&load(Path::new(path), &texts).expect("the texts are there"));
    let errors: Vec<_> = design
        .findings
        .iter()
        .filter(|it| it.severity == quillet_syntax::Severity::Error)
        .map(|it| (it.rule, &it.message))
        .collect();
    assert!(errors.is_empty(), "{errors:#?}");
    design
}

const SHARED: [(&str, &str); 2] = [
    (
        "saltings.quillet",
        include_str!("../../../examples/saltings.quillet"),
    ),
    (
        "bought.quillet",
        include_str!("../../../examples/bought.quillet"),
    ),
];

fn heron() -> Design {
    let texts = [(
        "heron.quillet",
        include_str!("../../../examples/heron.quillet"),
    )];
    design("heron.quillet", &[&texts[..], &SHARED[..]].concat())
}

fn right(plan: &Plan) {
    for route in &plan.routes {
        let wrong = lathe::carry_out(plan, route);
        assert!(wrong.is_empty(), "{:#?}\n{}", wrong, listed(plan, route));
    }
}

/// A route in short, for a failure's message.
fn listed(plan: &Plan, route: &quillet_plan::Route) -> String {
    let mut out = format!(
        "{} {:?} {:?}\n",
        route.part.name.text, route.strategy, route.blank
    );
    for (index, it) in route.operations.iter().enumerate() {
        out += &format!(
            "{:2} {:?} | {:?} | {:?}\n",
            index + 1,
            it.work,
            it.hold,
            it.tool
        );
    }
    out += &format!("{:#?}\n{:#?}", route.troubles, plan.mandrels);
    out
}

#[test]
fn the_worked_pens_come_out_as_designed() {
    let design = heron();
    for pen in &design.pens {
        right(&plan_pen(pen, None));
        right(&plan_pen(pen, design.bench(None).map(AsRef::as_ref)));
    }
    for part in design.parts.iter().filter(|it| !it.bought) {
        right(&plan_part(part, None));
    }
}
