//! What a bench has or lacks, as a route says it.

use super::{BENCH, made, mm, mouth, written};
use quillet_model::Design;
use quillet_plan::{
    Availability, MandrelKind, PlanProblem, RouteId, Tool, ToolList, pack_in_order, plan_pen,
};

/// 30 and a kerf of 2 leave less than 30 of a rod of 61, and just 30 of 62.
#[test]
fn a_saw_takes_its_kerf_of_every_rod() {
    let pieces = [mm(30.0), mm(30.0)];
    let rods = |rod: f64| pack_in_order(&pieces, mm(rod), mm(2.0)).rods;
    assert_eq!(rods(61.0), [vec![0], vec![1]]);
    assert_eq!(rods(62.0), [vec![0, 1]]);
}

/// A bench has a saw where it says what that takes.
#[test]
fn a_saw_is_on_the_bench_where_its_kerf_is() {
    for (bench, wanted) in [
        ("", Availability::Needed),
        ("saw kerf 1.2", Availability::OnBench),
    ] {
        let plan = made("acrylic", bench, &mouth("drill 8 to 30"));
        let tools = ToolList::of(&plan, plan_bench(bench).benches.first().map(AsRef::as_ref));
        let saw = tools.tools.iter().find(|it| it.tool == Tool::Saw);
        assert_eq!(saw.unwrap().standing, wanted);
    }
}

fn plan_bench(more: &str) -> Design {
    written(&BENCH.replace("lathe", &format!("{more}\n  lathe")))
}

/// Of flat drills the bench's own flat ones are named, where it has any.
#[test]
fn a_flat_drill_that_lacks_is_told_among_the_flat_ones() {
    let lacks = |flats: &str| {
        let plan = made("acrylic", flats, &mouth("bore 8.65 to 30"));
        plan.routes[RouteId::nth(0)]
            .problems
            .iter()
            .find_map(|it| match it {
                PlanProblem::NoDrill {
                    flat: true,
                    below,
                    above,
                    ..
                } => Some((below.unwrap(), above.unwrap())),
                _ => None,
            })
    };
    assert_eq!(lacks("flats 8, 9"), Some((mm(8.0), mm(9.0))));
}

/// A bought part's thread has no die on most benches; where one is there, the mandrel that takes the work
/// by that thread can be made, and goes before one over the other end's.
#[test]
fn a_bought_parts_thread_holds_the_work_where_its_die_is_at_hand() {
    let kind = |die: &str| {
        let bench = BENCH.replace("dies M10x0.75", die);
        let text = format!(
            "{bench}bought unit from point to heel {{\n  length 20\n  mass 2\n  outside {{\n    at 0 dia 4\n    at 10 dia 12 step 9.9\n    at 20 dia 9.9\n  }}\n  \
             from heel {{\n    thread M10x0.75 outside for 10\n  }}\n}}\n\
             part grip from tip to shank {{\n  blank of acrylic rod 18\n  length 40\n  outside dia 15\n  \
             from tip {{\n    drill 9.3 to 14\n    thread M10x0.75 inside to 12\n  }}\n  \
             from shank {{\n    tenon 12.9 for 8\n    thread M13x0.8 starts 3 outside for 5\n    relief 11.9 for 3 at 5\n  }}\n}}\n\
             pen test {{\n  screw unit.heel into grip.tip\n}}\n"
        );
        let design = written(&text);
        let plan = plan_pen(&design.pens[0], Some(design.benches[0].as_ref()));
        plan.mandrels
            .iter()
            .map(|it| it.kind)
            .filter(|it| *it != MandrelKind::Plug)
            .collect::<Vec<_>>()
    };
    assert_eq!(kind("dies M10x0.75"), [MandrelKind::Male]);
    assert_eq!(kind(""), [MandrelKind::Female]);
}
