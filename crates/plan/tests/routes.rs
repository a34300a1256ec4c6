//! Routes, carried out on a simulated lathe: each ends at the designed part.

mod generated;
mod lathe;
mod practice;
mod reported;

use proptest::prelude::*;
use quillet_fixture::EXAMPLES;
use quillet_geometry::Length;
use quillet_model::Pen;
use quillet_model::{Design, Texts, load, resolve};
use quillet_plan::{
    CutList, Plan, PlanProblem, RouteId, ToolList, Unschedulable, Work, caliper_table, plan_part,
    plan_pen,
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
    design(&format!("{name}.quillet"), &EXAMPLES)
}

fn heron() -> Design {
    example("heron")
}

/// Every sound pen that ships.
const SOUND: [&str; 6] = ["avocet", "curlew", "dunlin", "godwit", "whimbrel", "heron"];

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
const ODD: &str = r#"
use "saltings.quillet"
thread closing = M13x0.8 starts 3
thread joint = M10x0.75
thread cup = M9x0.75

-- Cap threads on the section, cut from the shank before the grip is reduced.
part godwit from tip to shank {
  blank of wrack rod 16
  length 40
  outside {
    at 0 dia 10.4
    at 12 dia 10
    at 22 dia 12.6 smooth
    at 24 dia 14
  }
  from tip {
    bore 8.6 to 1.2
    drill 6.9 to 10.5
    thread M7.4x0.5 inside to 9
    drill 6.3 through
  }
  from shank {
    tenon 12.9 for 16
    relief 12 for 9
    tenon 9.9 for 8
    thread joint outside for 6
    relief 9 for 2 at 6
    relief 11.8 for 1 at 9
    thread closing outside for 4 at 10
    relief 11.8 for 2 at 14
    chamfer 0.4
    drill 8 to 17
  }
}

-- The same thread written from the tip, over a grip that a die passes.
part slender from tip to shank {
  blank of wrack rod 16
  length 40
  outside {
    at 0  dia 10.4
    at 20 dia 10.8
    at 26 dia 10.8 step 13
    at 31 dia 13
  }
  from tip {
    drill 6.3 through
    thread closing outside for 4 at 26
  }
  from shank {
    tenon for 9
    thread joint outside for 7
  }
}

-- Threads at both ends, inside and outside.
part coupler from near to far {
  blank of reed square 18
  length 36
  outside {
    at 8 dia 14 as shoulder
    at 28 dia 14
  }
  from near {
    tenon for 8
    thread closing outside for 6 at 1
    relief 11.9 for 1
    drill 9.3 to 14
    thread joint inside to 10
  }
  from far {
    tenon for 8
    thread cup outside for 6
    drill 5 to 12
  }
}

part band from front to back {
  blank of brass rod 16
  length 2.5
  outside dia 14.6
  from front { ream 12 through; chamfer 0.2 }
}

-- A finial: a solid knob on a plain stalk, nothing to mount it by.
part finial from stalk to top {
  blank of chalk rod 14
  length 16
  outside {
    at 6 dia 9
    at 9 dia 12 bead 4
    at top dia 0 dome
  }
  from stalk { tenon 5.9 for 6; chamfer 0.3 }
}

part sleeve from front to back {
  blank of sunken-oak square 20
  length 50
  outside {
    at 0 dia 13 round 0.5
    at 20 dia 15 smooth
    at back dia 12.5 smooth
  }
  from front {
    ream 10 to 20
    recess 11 for 3 at 8
    groove 12 for 2 at 30
    countersink 10.6
  }
  from back {
    drill 7 through
    taper 9 to 7.4 for 12
  }
}

-- Two resins, a brass band between, turned as one.
part stack from mouth to crown {
  blank of reed rod 18 to 30
  blank of brass rod 18 to 32
  blank of chalk rod 18 spigot 11 for 12 gap 0.1
  length 64
  outside {
    at 0 dia 15
    at 32 dia 15.6 step 15.2
    at 58 dia 14.4 smooth
    at crown dia 0 dome
  }
  from mouth {
    bore 13.1 to 2.5
    thread closing inside to 7.5 at 2.5
    drill 12.2 to 54
  }
}

part short-cap from mouth to crown {
  blank of reed rod 14
  length 12
  outside {
    at 0 dia 12.4
    at 6 dia 12.4
    at crown dia 0 dome
  }
  from mouth { drill 8.3 to 6; thread cup inside to 5 }
}

part left from mouth to tail {
  blank of reed rod 18
  length 40
  outside { at 0 dia 14; at 34 dia 14; at tail dia 0 dome }
  from mouth { drill 9 to 14; thread M10x1-LH inside to 10 }
}
"#;

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

fn mm(lengths: &[Length]) -> Vec<f64> {
    lengths.iter().map(|it| it.to_mm()).collect()
}

/// The figures worked out by hand for this pen: seven sizes of hole, four of them in the
/// section, bores counted whatever tool makes them.
#[test]
fn seven_drills_make_the_worked_pen() {
    let design = heron();
    let pen: &Pen = design.pen("heron").unwrap();
    let plan = plan_pen(pen, design.bench(None).map(AsRef::as_ref));
    let names: Vec<_> = plan.routes.iter().map(|it| &*it.part.name.text).collect();
    // Females first: the cap receives the barrel, the barrel the section.
    assert_eq!(names, ["cap", "barrel", "section"]);
    let tools = ToolList::of(&plan, None);
    assert_eq!(mm(&tools.hole_sizes), [13.1, 12.2, 9.3, 8.6, 8.0, 6.9, 6.3]);
    assert_eq!(
        mm(&ToolList::hole_sizes_of(&plan, RouteId::nth(2))),
        [8.6, 8.0, 6.9, 6.3]
    );
    // No die of the nib unit's thread is ever asked for.
    let dies = tools
        .tools
        .iter()
        .filter(|it| matches!(it.tool, quillet_plan::Tool::Die { .. }));
    assert_eq!(dies.count(), 2);
}

#[test]
fn blanks_are_the_part_and_all_that_is_cut_away() {
    let design = heron();
    let plan = plan_pen(design.pen("heron").unwrap(), None);
    let list = CutList::of(&plan, None);
    for piece in list.stocks.iter().flat_map(|stock| &stock.pieces) {
        let sum = piece.net + piece.facing + piece.nub + piece.stub + piece.spigot;
        assert_eq!(sum, piece.length, "{piece:?}");
        assert!(!piece.spigot.is_negative(), "{piece:?}");
    }
    let of = |name: &str| {
        list.stocks
            .iter()
            .flat_map(|stock| &stock.pieces)
            .find(|it| &*it.part == name)
            .unwrap()
    };
    // 64 and a nub of 6, 2.5 faced off each end.
    assert_eq!(of("cap").length, Length::mm(75.0));
    assert_eq!(of("section").length, Length::mm(35.0));
}

#[test]
fn calipers_read_what_is_drawn() {
    let design = heron();
    for part in design.parts.iter().filter(|it| !it.is_bought()) {
        let outer = &part.profiles.as_ref().unwrap().crest.outer;
        for from in [quillet_model::End::First, quillet_model::End::Second] {
            let table = caliper_table(part, &[], from, Length::mm(5.0)).unwrap();
            assert_eq!(table.rows.first().unwrap().at, Length::ZERO);
            assert_eq!(table.rows.last().unwrap().at, part.length);
            for row in &table.rows {
                let at = part
                    .station(from, row.at)
                    .to_mm()
                    .clamp(0.0, part.length.to_mm());
                let (a, b) = outer.radii_at(at).unwrap();
                let largest = row.before.max(row.after).to_mm();
                assert!((largest - 2.0 * a.max(b)).abs() < 2e-6, "{row:?}");
                assert!(row.rough > row.before_sanding);
            }
            // Every station of the outside and every edge of a cut is in it.
            for station in &part.stations {
                let at = part.station(from, station.at);
                assert!(
                    table
                        .rows
                        .iter()
                        .any(|row| (row.at - at).abs() < Length::mm(0.01))
                );
            }
        }
    }
}

/// n = 1000·v / (π·d) by hand, and the rows of the handbook table.
#[test]
fn speeds_are_those_of_the_handbook() {
    use quillet_plan::{SpeedClass, speed};
    let design = design(
        "lathe.quillet",
        &[(
            "lathe.quillet",
            "bench slow { lathe 250, 500, 900, 1600 }\nbench fast { lathe 1500..3000 }",
        )],
    );
    let bench = |index: usize| Some(design.benches[index].as_ref());
    let acrylic = quillet_model::Material::built_in("acrylic").unwrap();
    let handbook = quillet_reference::rows("machining.csv");
    let row = handbook
        .iter()
        .find(|row| row.text("material").contains("PMMA") && row.text("operation") == "drilling")
        .unwrap();
    let (low, high) = (
        row.number("speed_low_m_min"),
        row.number("speed_high_m_min"),
    );
    let found = speed(SpeedClass::Drill, Length::mm(11.0), [&acrylic], None).unwrap();
    for (rev_min, v) in [(found.low_rev_min, low), (found.high_rev_min, high)] {
        assert!((rev_min - 1000.0 * v / (std::f64::consts::PI * 11.0)).abs() < 1e-9);
    }
    // 434 to 1302 rev/min: of the steps only 500 and 900 lie between.
    let stepped = speed(SpeedClass::Drill, Length::mm(11.0), [&acrylic], bench(0)).unwrap();
    assert_eq!(stepped.settings_rev_min, [(500.0, 500.0), (900.0, 900.0)]);
    assert_eq!(stepped.limited, None);
    let hasty = speed(SpeedClass::Drill, Length::mm(11.0), [&acrylic], bench(1)).unwrap();
    assert_eq!(hasty.limited, Some(quillet_plan::SpeedLimit::TooFast));
    assert_eq!(hasty.low_rev_min, 1500.0);
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

/// A bench whose lathe cuts threads.
const GEARED: &str = "bench geared { drills 1..20 step 0.1; boring 5 reach 40; boring 8 reach 70; \
    lathe 30, 60, 120, 250, 450, 700, 1100, 1700 bore 26 screwcutting }\n";

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

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
