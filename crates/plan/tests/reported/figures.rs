//! A worked pen's figures by hand: its holes, its blanks, its caliper table, its speeds.

use super::*;
use quillet_geometry::Length;
use quillet_model::Pen;
use quillet_plan::{CutList, RouteId, ToolList, caliper_table, plan_pen};

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
    let mut section = plan.clone();
    section.routes = vec![plan.routes[RouteId::nth(2)].clone()].into();
    let sizes = ToolList::of(&section, None).hole_sizes;
    assert_eq!(mm(&sizes), [8.6, 8.0, 6.9, 6.3]);
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
