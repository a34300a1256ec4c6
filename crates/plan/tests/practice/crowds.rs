//! Parts of more cuts than anybody makes.

use crate::design;
use quillet_plan::{MOST_CUTS, PlanProblem, RouteId, Unschedulable, plan_part};

/// A rod with these cuts in it: how many steps its route has, and of how many cuts it says that they
/// are too many.
fn planned(cuts: &str) -> (usize, Option<usize>) {
    let text = format!(
        "part rod from a to b {{\n  blank of brass rod 18\n  length 400\n  outside dia 14\n  \
         from a {{\n{cuts}  }}\n}}\n"
    );
    let design = design("rod.quillet", &[("rod.quillet", &text)]);
    let plan = plan_part(&design.parts[0], None);
    let route = &plan.routes[RouteId::nth(0)];
    let too_many = route.problems.iter().find_map(|it| match it {
        PlanProblem::NoOrder {
            feature: Some(_),
            why: Unschedulable::TooMany { count },
        } => Some(*count),
        _ => None,
    });
    (route.operations.len(), too_many)
}

fn each(count: usize, cut: impl Fn(f64) -> String) -> String {
    (0..count).map(|nth| cut(nth as f64) + "\n").collect()
}

#[test]
fn no_route_is_looked_for_among_more_holes_and_threads_than_anybody_cuts() {
    let drills = |count| {
        each(count, |nth| {
            format!(
                "drill {:.4} to {:.2}",
                8.0 - nth * 0.0005,
                10.0 + nth * 0.04
            )
        })
    };
    let threads = |count| {
        each(count, |nth| {
            format!("thread M13x0.8 outside for 0.02 at {:.2}", nth * 0.04)
        })
    };
    assert_eq!(planned(&drills(MOST_CUTS + 7)), (0, Some(MOST_CUTS + 7)));
    assert_eq!(planned(&threads(MOST_CUTS + 7)), (0, Some(MOST_CUTS + 7)));
    let (steps, too_many) = planned(&drills(40));
    assert!(steps > 40 && too_many.is_none(), "{steps}");
}

#[test]
fn equal_holes_one_after_the_other_and_grooves_are_no_crowd() {
    let (steps, too_many) = planned(&"drill 8 to 10\n".repeat(MOST_CUTS + 7));
    assert!(steps > 0 && too_many.is_none(), "{steps}");
    let grooves = each(MOST_CUTS + 7, |nth| {
        format!("groove 12 for 0.02 at {:.2}", 1.0 + nth * 0.04)
    });
    let (steps, too_many) = planned(&grooves);
    assert!(steps > MOST_CUTS && too_many.is_none(), "{steps}");
}
