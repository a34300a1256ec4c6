//! What the tool list owns up to.

use super::*;
use quillet_plan::{Availability, ListedTool, Substitute, Tool};

fn listed(bench: &str) -> Vec<ListedTool> {
    let text = format!(
        "bench own {{\n  {bench}\n}}\nmaterial reed {{ kind acrylic }}\n\
         part thing from a to b {{\n  blank of reed rod 18\n  length 40\n  \
         outside {{ at 0 dia 14; at 40 dia 14 }}\n  from a {{ bore 8.6 to 1.2; drill 7.05 to 20 }}\n}}\n"
    );
    let design = design("own.quillet", &[("own.quillet", &text)]);
    let bench = design.benches[0].as_ref();
    let plan = plan_part(
        design.part("thing").expect("the part is there"),
        Some(bench),
    );
    ToolList::of(&plan, Some(bench)).tools
}

fn flat(tools: &[ListedTool]) -> &ListedTool {
    let found = tools
        .iter()
        .find(|it| matches!(it.tool, Tool::FlatDrill { .. }));
    found.expect("a flat drill is asked for")
}

#[test]
fn a_twist_drill_is_no_flat_one() {
    let tools = listed("drills 1..13 step 0.1");
    let flat_one = flat(&tools);
    let ground = Substitute::GroundFlat {
        dia: Length::mm(8.6),
        wider: Length::ZERO,
    };
    assert_eq!(
        (flat_one.standing, flat_one.substitute),
        (Availability::ToBuy, Some(ground))
    );
    let tools = listed("drills 1..13 step 0.1\n  flats 8.6");
    assert_eq!(
        (flat(&tools).standing, flat(&tools).substitute),
        (Availability::OnBench, None)
    );
}

#[test]
fn a_boring_bar_does_a_flat_drills_work() {
    let tools = listed("drills 1..13 step 0.1\n  boring 5 reach 30");
    assert!(
        !tools
            .iter()
            .any(|it| matches!(it.tool, Tool::FlatDrill { .. }))
    );
    let bar = tools
        .iter()
        .find(|it| matches!(it.tool, Tool::BoringBar { .. }));
    assert_eq!(bar.unwrap().standing, Availability::OnBench);
}

/// 7.05 lies between 7.0 and 7.1 of the bench; the first of two as near is named.
#[test]
fn what_is_lacking_has_its_nearest_and_what_that_costs() {
    let tools = listed("drills 1..13 step 0.2");
    let drill = tools
        .iter()
        .find(|it| matches!(it.tool, Tool::Drill { dia, .. } if dia == Length::mm(7.05)));
    let nearest = Substitute::Drill {
        dia: Length::mm(7.0),
        wider: Length::mm(-0.05),
    };
    let drill = drill.unwrap();
    assert_eq!(
        (drill.standing, drill.substitute),
        (Availability::ToBuy, Some(nearest))
    );
}
