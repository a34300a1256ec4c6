//! Volume, centroid, inertia, area and length against 50-digit quadrature: `revolution_oracle.csv`.

mod common;

use quillet_geometry::{Chain, Point, Properties, Surface, Tag};

#[test]
fn every_property_agrees_with_the_quadrature() {
    let mut checked = 0;
    for (name, case) in common::cases() {
        let Some(outer) = case.chain("outer") else {
            continue;
        };
        let solid = Properties::between([&outer], case.chain("bore").as_ref());
        let surface = Surface::of(&outer);
        for (item, row) in &case.values {
            let found = match item.as_str() {
                "volume" => solid.volume_mm3,
                "z_centroid" => solid.centroid_mm,
                "i_axis" => solid.axial_mm5,
                "i_trans_cg" => solid.transverse_mm5,
                "outer_lateral_area" => surface.area_mm2,
                "outer_arc_length" => surface.length_mm,
                _ => continue,
            };
            let wanted = row.number("z0");
            assert!(
                (found / wanted - 1.0).abs() < 1e-12,
                "{name}: {item} {found}, {wanted} wanted"
            );
            checked += 1;
        }
    }
    assert!(checked > 0, "no property in the table");
}

/// ISO 68-1 basic profile: a crest an eighth of the pitch wide, a root a quarter, 60° between.
#[test]
fn a_thread_of_full_form_holds_what_the_equal_cylinder_holds() {
    let mut checked = 0;
    for (name, case) in common::cases() {
        let Some(pitch) = name
            .rsplit_once("xP")
            .and_then(|(_, pitch)| pitch.parse::<f64>().ok())
        else {
            continue;
        };
        let radius = |item: &str| case.values[item].number("z0");
        let (major, minor) = (radius("r_major"), radius("r_minor"));
        let places = [
            (0.0, major),
            (0.125, major),
            (0.4375, minor),
            (0.6875, minor),
            (1.0, major),
        ];
        let turn =
            Chain::polyline(Tag(0), &places.map(|(part, r)| Point::new(part * pitch, r))).unwrap();
        let equal = (Properties::within(&turn).volume_mm3 / (std::f64::consts::PI * pitch)).sqrt();
        assert!(
            (equal / radius("r_equal_volume") - 1.0).abs() < 1e-12,
            "{name}: {equal}"
        );
        checked += 1;
    }
    assert!(checked > 0, "no thread in the table");
}

#[test]
fn stretches_of_a_solid_make_up_the_whole() {
    for (name, case) in common::cases() {
        let Some(outer) = case.chain("outer") else {
            continue;
        };
        let bore: Option<Chain> = case.chain("bore");
        let whole = Properties::between([&outer], bore.as_ref()).of_density(1.2);
        let (from, to) = (outer.start().z, outer.end().z);
        let stations: Vec<f64> = (0..=7)
            .map(|at| from + (to - from) * f64::from(at) / 7.0)
            .collect();
        let sum: quillet_geometry::Mass = stations
            .windows(2)
            .map(|pair| {
                Properties::of_stretch(
                    std::slice::from_ref(&outer),
                    bore.as_slice(),
                    pair[0],
                    pair[1],
                )
                .of_density(1.2)
            })
            .sum();
        for (wanted, found) in [
            (whole.mass_g, sum.mass_g),
            (whole.centre_mm, sum.centre_mm),
            (whole.axial_g_mm2, sum.axial_g_mm2),
            (whole.transverse_g_mm2, sum.transverse_g_mm2),
        ] {
            assert!(
                (found / wanted - 1.0).abs() < 1e-11,
                "{name}: {found}, {wanted} wanted"
            );
        }
    }
}
