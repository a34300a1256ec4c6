//! Holes on a pitch circle: drilled at their end with the spindle locked.

use super::{find, route, written};
use quillet_geometry::Length;
use quillet_model::End;
use quillet_plan::{DrilledHole, Indexed, PlanProblem, Tool, ToolList, Work, plan_part};

fn disc(bench: &str, count: u32) -> quillet_model::Design {
    written(&format!(
        "bench shed {{\n  {bench}\n}}\npart disc from front to back {{\n  bench shed\n  blank of reed rod 18\n  length 20\n  \
         outside dia 14\n  from front {{\n    bore 10 to 3\n    drill 2 to 9 at 3 on 8 indexed {count}\n  }}\n  from back \
         {{\n    drill 4 to 14\n    bore 3.1 to 2.1 on 10 indexed 3\n  }}\n}}\n"
    ))
}

#[test]
fn each_is_drilled_from_its_end_after_what_it_begins_in() {
    let design = disc("drills 2, 4", 6);
    let part = design.part("disc").expect("it is there");
    let plan = plan_part(part, design.bench(None).map(AsRef::as_ref));
    let disc = route(&plan, "disc");
    let bored = |end: End| move |work: &Work| matches!(work, Work::Inside(cut) if cut.end == end);
    let beside =
        |at: End| move |work: &Work| matches!(work, Work::Beside { end, .. } if *end == at);
    let (recess, _) = find(disc, bored(End::First));
    let (six, drilled) = find(disc, beside(End::First));
    assert!(recess < six, "they begin at its floor");
    assert!(matches!(drilled.tool, Some(Tool::Drill { dia, .. }) if dia == Length::mm(2.0)));
    assert!(drilled.speed.is_none(), "the spindle is locked");
    let (three, sunk) = find(disc, beside(End::Second));
    let (axial, _) = find(disc, bored(End::Second));
    assert!(
        three < axial,
        "they are drilled while it is solid behind them"
    );
    let flat = Tool::FlatDrill {
        dia: Length::mm(3.1),
    };
    assert_eq!(sunk.tool, Some(flat));
    let tools = ToolList::of(&plan, None).tools;
    let listed = |tool: Tool| tools.iter().any(|it| it.tool == tool);
    assert!(listed(flat) && drilled.tool.is_some_and(listed));
}

/// A stop of 24 locks at 3 and 6 places, not at 7.
#[test]
fn a_spindle_that_cannot_be_locked_so_is_told_of() {
    let untold = |count: u32| {
        let design = disc("index 24", count);
        let part = design.part("disc").expect("it is there");
        let bench = design.benches.iter().find(|it| &*it.name.text == "shed");
        let plan = plan_part(part, bench.map(AsRef::as_ref));
        let problems = plan.routes.iter().flat_map(|it| &it.problems);
        let beside = problems.filter(|it| {
            let cut = Indexed::Beside(quillet_model::CircleId::nth(0));
            matches!(it, PlanProblem::NoIndex { cut: of, places } if *of == cut && *places == count)
        });
        beside.count()
    };
    assert_eq!([untold(6), untold(7)], [0, 1]);
}

/// Of holes of 2 and of 3.1, sunk flat, a bench with drills of 1 and 3 has neither; one with 2 and 3.1 has both,
/// for a drill can be ground flat.
#[test]
fn a_drill_that_nobody_owns_is_told_of() {
    let lacking = |drills: &str| {
        let design = disc(&format!("drills {drills}"), 6);
        let part = design.part("disc").expect("it is there");
        let bench = design.benches.iter().find(|it| &*it.name.text == "shed");
        let plan = plan_part(part, bench.map(AsRef::as_ref));
        let problems = plan.routes.iter().flat_map(|it| it.problems.clone());
        let sizes = problems.filter_map(|it| match it {
            PlanProblem::NoDrill {
                hole: DrilledHole::Indexed(Indexed::Beside(_)),
                wanted,
                flat,
                below,
                above,
            } => Some((wanted, flat, below, above)),
            _ => None,
        });
        let mut sizes: Vec<_> = sizes.collect();
        sizes.sort();
        sizes
    };
    let [one, three] = [1.0, 3.0].map(|it| Some(Length::mm(it)));
    let wanted = [
        (Length::mm(2.0), false, one, three),
        (Length::mm(3.1), true, three, None),
    ];
    assert_eq!(lacking("1, 3"), wanted);
    assert!(lacking("2, 3.1").is_empty());
}
