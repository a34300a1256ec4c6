//! Routes, carried out on a simulated lathe: each ends at the designed part.

mod as_made;
mod generated;
mod lathe;
mod practice;
mod reported;

use proptest::prelude::*;
use quillet_fixture::{EXAMPLES, MORE_EXAMPLES};
use quillet_geometry::Length;
use quillet_model::{Design, Texts, load, resolve};
use quillet_plan::{
    Plan, PlanProblem, RouteId, ToolList, Unschedulable, Work, caliper_table, plan_part, plan_pen,
};
use std::path::Path;

fn design(path: &str, texts: &[(&str, &str)]) -> Design {
    let texts = Texts::from_iter(texts.iter().copied());
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

fn example(name: &str) -> Design {
    let file = format!("{name}.quillet");
    let more: Vec<(String, &str)> = MORE_EXAMPLES
        .iter()
        .map(|it| (format!("more/{}", it.0), it.1))
        .collect();
    let all: Vec<(&str, &str)> = more
        .iter()
        .map(|it| (&*it.0, it.1))
        .chain(EXAMPLES)
        .collect();
    let is_it = |it: &&(&str, &str)| Path::new(it.0).file_name() == Path::new(&file).file_name();
    design(all.iter().find(is_it).map_or(&*file, |it| it.0), &all)
}

fn heron() -> Design {
    example("heron")
}

/// Every sound pen that ships.
const SOUND: [&str; 12] = [
    "avocet",
    "curlew",
    "dunlin",
    "godwit",
    "whimbrel",
    "heron",
    "dotterel",
    "plover",
    "sandpiper",
    "snipe",
    "stilt",
    "bittern",
];

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
    out += &format!("{:#?}\n{:#?}", route.problems, plan.mandrels);
    out
}

#[test]
fn the_worked_pens_come_out_as_designed() {
    let design = heron();
    for pen in &design.pens {
        right(&plan_pen(pen, None));
        right(&plan_pen(pen, design.bench(None).map(AsRef::as_ref)));
    }
    for part in design.parts.iter().filter(|it| !it.is_bought()) {
        right(&plan_part(part, None));
    }
}

#[test]
fn every_example_comes_out_as_designed() {
    for name in SOUND {
        let design = example(name);
        for pen in &design.pens {
            right(&plan_pen(pen, None));
            right(&plan_pen(pen, design.bench(None).map(AsRef::as_ref)));
        }
    }
}

/// Parts that no fixed script would get right.
const ODD: &str = include_str!("generated/odd.quillet");

fn odd() -> Design {
    design(
        "odd.quillet",
        &[&[("odd.quillet", ODD)][..], &SHARED[..]].concat(),
    )
}

#[test]
fn odd_parts_come_out_right() {
    let design = odd();
    for part in &design.parts {
        if !part.is_bought() {
            right(&plan_part(part, None));
            right(&plan_part(part, design.bench(None).map(AsRef::as_ref)));
        }
    }
}

/// A die that meets a grip fatter than the thread's root from one end and a step from the
/// other has no way on; the lathe that cuts threads has.
#[test]
fn where_no_order_works_it_says_why() {
    let text = r#"
thread closing = M13x0.8 starts 3
bench plain { lathe 250..3000 }
bench geared { lathe 90..2000 screwcutting }
material wrack { kind ebonite }
part thing from tip to shank {
  blank of wrack rod 18
  length 40
  outside { at 0 dia 14; at 20 dia 14 step 13; at 26 dia 13 step 15; at 40 dia 15 }
  from tip { drill 6 through; thread closing outside for 4 at 21 }
}
"#;
    let design = design("no.quillet", &[("no.quillet", text)]);
    let part = design.part("thing").unwrap();
    let blocked = |index: usize| {
        let plan = plan_part(part, Some(&design.benches[index]));
        plan.routes[RouteId::nth(0)].problems.iter().any(|it| {
            matches!(
                it,
                PlanProblem::NoOrder {
                    why: Unschedulable::DieBlocked { .. },
                    ..
                }
            )
        })
    };
    assert!(blocked(0));
    assert!(!blocked(1));
    right(&plan_part(part, Some(&design.benches[1])));
}

/// The simulated lathe itself: a route with any cut left out, or with two cuts exchanged that
/// need each other, does not pass.
#[test]
fn the_simulated_lathe_misses_no_missing_cut() {
    let design = heron();
    let plan = plan_pen(design.pen("heron").unwrap(), None);
    for route in &plan.routes {
        for (index, operation) in route.operations.iter().enumerate() {
            if operation.features.is_empty() {
                continue;
            }
            let mut without = route.clone();
            without.operations.remove(index);
            assert!(
                !lathe::carry_out(&plan, &without).is_empty(),
                "{:?}",
                operation.work
            );
            let mut early = route.clone();
            let moved = early.operations.remove(index);
            early.operations.insert(0, moved);
            assert!(
                !lathe::carry_out(&plan, &early).is_empty(),
                "{:?}",
                operation.work
            );
        }
    }
}

/// Nor a missing stroke: a cut from the side or beside the axis left out, or made at one place fewer.
#[test]
fn the_simulated_lathe_misses_no_missing_stroke() {
    let text = "use \"saltings.quillet\"\npart thing from a to b {\n  blank of reed rod 19\n  length 40\n  \
                outside dia 15\n  side {\n    flat across 13.6 at 4..10 indexed 6\n    \
                slot 1 through at 14..18 indexed 4 clock 10\n    drill 1.2 to 1 at 24 indexed 3\n    \
                flat deep 0.4 at 28..34 clock 40\n  }\n  from a { drill 1.5 to 4 on 8 indexed 5 }\n}\n";
    let texts = [&[("own.quillet", text)][..], &SHARED[..]].concat();
    let design = design("own.quillet", &texts);
    let plan = plan_part(design.part("thing").expect("it is there"), None);
    right(&plan);
    let route = &plan.routes[RouteId::nth(0)];
    let mut tried = 0;
    for (index, operation) in route.operations.iter().enumerate() {
        let mut fewer = route.clone();
        let (Work::Side { places, .. } | Work::Beside { places, .. }) =
            &mut fewer.operations[index].work
        else {
            continue;
        };
        *places -= 1;
        let mut without = route.clone();
        without.operations.remove(index);
        for spoilt in [fewer, without] {
            let wrong = lathe::carry_out(&plan, &spoilt);
            assert!(!wrong.is_empty(), "{:?}", operation.work);
            tried += 1;
        }
    }
    assert_eq!(tried, 10, "five statements, two ways each");
}

/// A bench whose lathe cuts threads.
const GEARED: &str = "bench geared { drills 1..20 step 0.1; boring 5 reach 40; boring 8 reach 70; \
    lathe 30, 60, 120, 250, 450, 700, 1100, 1700 bore 26 screwcutting }\n";

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_work_comes_out_as_designed(text in generated::works::work(), benched in any::<bool>()) {
        let design = design("any.quillet", &[&[("any.quillet", &*text)][..], &SHARED[..]].concat());
        let bench = benched.then(|| design.bench(None).map(AsRef::as_ref)).flatten();
        let plan = plan_pen(design.pens.first().expect("there is one"), bench);
        prop_assert!(plan.routes.iter().any(|it| it.turns.is_some()), "{text}");
        for route in &plan.routes {
            let wrong = lathe::carry_out(&plan, route);
            prop_assert!(wrong.is_empty(), "{text}\n{wrong:#?}\n{}", listed(&plan, route));
        }
    }

    #[test]
    fn any_pen_comes_out_as_designed(text in generated::pens::pen(), benched in 0..3_usize) {
        let text = format!("{text}{GEARED}");
        let design = design("any.quillet", &[&[("any.quillet", &*text)][..], &SHARED[..]].concat());
        let own = |name: &str| design.benches.iter().find(|it| &*it.name.text == name);
        // None, one with taps and dies, one whose lathe is geared for threads.
        let bench = ["", "saltings", "geared"].map(own)[benched].map(AsRef::as_ref);
        let mut plans: Vec<Plan> = design.pens.iter().map(|pen| plan_pen(pen, bench)).collect();
        // A ring is in no joint: it is made by itself.
        plans.extend(design.part("band").map(|part| plan_part(part, bench)));
        for plan in &plans {
            for route in &plan.routes {
                let wrong = lathe::carry_out(plan, route);
                prop_assert!(wrong.is_empty(), "{text}\n{wrong:#?}\n{}", listed(plan, route));
            }
        }
    }
}
