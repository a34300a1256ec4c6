//! Least walls against 50-digit minimisation: the `min_wall` and `at_…` rows of
//! `revolution_oracle.csv`.

mod common;

use quillet_geometry::walls::walls;

#[test]
fn every_least_wall_agrees_and_lies_where_it_should() {
    let mut checked = 0;
    for (name, case) in common::cases() {
        let (Some(outer), Some(bore), Some(row)) = (
            case.chain("outer"),
            case.chain("bore"),
            case.values.get("min_wall"),
        ) else {
            continue;
        };
        let wanted = row.number("z0");
        let near = outer.approach(&bore);
        assert!(
            (near.distance_mm - wanted).abs() < 1e-9,
            "{name}: {near:?}, {wanted} wanted"
        );

        let walls = walls(&[outer], &[bore], |_, _| true);
        let least = walls
            .iter()
            .min_by(|a, b| a.least_mm.total_cmp(&b.least_mm))
            .expect("a wall");
        assert!(
            (least.least_mm - wanted).abs() < 1e-9,
            "{name}: {least:?}, {wanted} wanted"
        );
        for (item, found) in [
            ("at_outer_z", least.outer_at.z),
            ("at_outer_r", least.outer_at.r),
            ("at_bore_z", least.inner_at.z),
            ("at_bore_r", least.inner_at.r),
        ] {
            let Some(row) = case.values.get(item) else {
                continue;
            };
            assert!(
                (found - row.number("z0")).abs() < 1e-6,
                "{name}: {item} {found}, {} wanted",
                row.number("z0")
            );
        }
        checked += 1;
    }
    assert!(checked > 0, "no wall in the table");
}
