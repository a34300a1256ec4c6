//! What has to pass, and what stops it from behind.

use super::*;

/// A hole cut from the far end looks away: what comes from here meets its point from behind.
#[test]
fn a_point_seen_from_behind_is_no_corner() {
    let cap = "part cap from crown to mouth {\n blank of acrylic rod 30\n length 60\n\
               outside dia 18\nfrom crown {\n bore 8.2 to 11\n}\n\
               from mouth {\n drill 12 to 22\n}\n}\n";
    let corners = |end: &str| {
        let text = rod("rod", "8") + cap + &pen(&format!("glue rod.front into cap.{end} by 10"));
        let design = design(&text);
        let clearances = &joint(&design, 0).clearances;
        let corner = clearances
            .iter()
            .filter(|it| it.kind == ClearanceKind::Corner);
        corner.map(|it| it.nominal_mm).collect::<Vec<_>>()
    };
    assert_eq!(corners("crown"), []);
    assert_eq!(corners("mouth"), [12.0]);
}

/// What swells without a step has to pass as one with it; past the next step that looks the way it goes
/// another may stop it.
#[test]
fn the_fattest_that_has_to_pass_lies_behind_what_swells() {
    let passes = |outside: &str| {
        let rod = format!(
            "part rod from front to back {{\n blank of acrylic rod 30\n length 40\n outside {{\n{outside}\n}}\n}}\n"
        );
        let text = rod + &tube("tube", "bore 8 to 35");
        let design = design(&(text + &pen("slip rod.front into tube.mouth")));
        match &joint(&design, 0).verdict.closing {
            Closing::Blocked(blocked) => blocked.passes.radius_mm,
            other => panic!("{other:?}"),
        }
    };
    near(passes("at 0 dia 8.2\n at 20 dia 8.6\n at 40 dia 8.6"), 4.3);
    // Slimmer, then a step that is no fatter, then a swell.
    near(
        passes("at 0 dia 8.2\n at 10 dia 8.4\n at 15 dia 8 step 8.3\n at 40 dia 8.6"),
        4.3,
    );
    near(
        passes("at 0 dia 8.2\n at 10 dia 8.4 step 8.6\n at 40 dia 8.6"),
        4.2,
    );
}

/// A drill's point that a narrower hole goes on through is a step to pass, a blind one is the end.
#[test]
fn a_point_that_another_hole_opens_is_no_bottom() {
    let closing = |inside: &str| {
        let text = rod("rod", "8.5")
            + "part plug from in to out {\n blank of acrylic rod 30\n length 15\n outside dia 6\n}\n"
            + "part carrier like rod {\n from front {\n bore 6 to 5\n }\n}\n"
            + &tube("tube", inside)
            + &pen("slip plug.in into carrier.front\nslip carrier.front into tube.mouth");
        joint(&design(&text), 1).verdict.closing.clone()
    };
    let blind = closing("drill 9 to 12");
    assert!(matches!(blind, Closing::Short { .. }), "{blind:?}");
    let opened = closing("drill 9 to 12\n drill 4 to 30");
    match opened {
        Closing::Blocked(blocked) => near(blocked.throat.radius_mm, 2.0),
        other => panic!("{other:?}"),
    }
}
