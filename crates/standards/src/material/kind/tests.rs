use super::*;
use std::collections::BTreeSet;

#[test]
fn densities_are_those_of_the_tables_and_inside_their_range() {
    for row in quillet_reference::rows("material_density.csv") {
        let Some(found) = ROWS.iter().find(|kind| kind.title == row.text("material")) else {
            panic!("{row}: {} is carried under no kind", row.text("material"));
        };
        let density = found.density();
        let [low, high] = ["low_kg_m3", "high_kg_m3"].map(|column| row.number(column));
        assert!((low..=high).contains(&density.typical_kg_m3), "{row}");
        assert!((low..=high).contains(&density.low_kg_m3), "{row}");
        assert!((low..=high).contains(&density.high_kg_m3), "{row}");
        assert!(
            row.text("provenance")
                .split_whitespace()
                .any(|word| { density.source.text().contains(word) })
        );
    }
}

#[test]
fn names_are_unique_and_as_makers_write_them() {
    let mut seen = BTreeSet::new();
    for row in ROWS.iter() {
        for name in std::iter::once(row.kind()).chain(row.aliases()) {
            assert!(seen.insert(name), "{name} twice");
            assert!(
                name.starts_with(|c: char| c.is_ascii_lowercase())
                    && name
                        .chars()
                        .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'),
                "{name}"
            );
        }
    }
}

#[test]
fn every_row_is_sourced_and_sound() {
    for row in ROWS.iter() {
        let density = row.density();
        assert!(!density.source.text().is_empty(), "{}", row.kind);
        assert!(Colour::read(&row.colour).is_some(), "{}", row.kind);
        assert!(density.low_kg_m3 < density.typical_kg_m3, "{}", row.kind);
        assert!(density.typical_kg_m3 < density.high_kg_m3, "{}", row.kind);
        assert!(
            ["yes", "no", ""].contains(&row.ink_attacks.as_str()),
            "{}",
            row.kind
        );
        let stiff = row.modulus_gpa().map(|(it, _)| it);
        let strain = row.strain_percent().map(|(it, _)| it);
        assert_eq!(stiff.is_some(), strain.is_some(), "{}", row.kind);
        assert!(
            stiff.is_none_or(|it| (0.1..=220.0).contains(&it)),
            "{}",
            row.kind
        );
        assert!(
            strain.is_none_or(|it| (0.0..=5.0).contains(&it)),
            "{}",
            row.kind
        );
        let finest = row.finest_pitch(Length::mm(12.0));
        assert!(
            finest.is_some() || row.family != Family::Wood,
            "{}",
            row.kind
        );
        assert!(
            finest.is_none_or(|it| (0.5..=2.0).contains(&it.to_mm())),
            "{}",
            row.kind
        );
        if let Some(group) = Some(&row.machining).filter(|group| !group.is_empty()) {
            assert!(row.cutting(Operation::Turning).is_some(), "{group}");
            assert!(row.cutting(Operation::Drilling).is_some(), "{group}");
        }
    }
}

/// Dense, close-grained woods have been threaded fine by hand for centuries, maple never.
#[test]
fn woods_hold_threads_by_kind_and_size() {
    let finest = |kind: &str, major: f64| {
        let finest = named(kind).unwrap().finest_pitch(Length::mm(major));
        finest.map(Length::to_mm)
    };
    for kind in ["boxwood", "african-blackwood", "lignum-vitae"] {
        assert!(finest(kind, 13.0) <= Some(0.8), "{kind}");
    }
    assert!(finest("hard-maple", 10.0) > Some(1.0));
    assert!(finest("black-walnut", 10.0) > finest("hard-maple", 10.0));
    assert_eq!(finest("boxwood", 16.0), Some(0.75));
    assert_eq!(finest("boxwood", 32.0), Some(1.5));
    assert_eq!(finest("flaked-resin", 32.0), Some(1.0));
    assert_eq!(finest("polyester-resin", 10.0), None);
}

#[test]
fn what_a_maker_names_is_known() {
    for name in [
        "acrylic",
        "polyester-resin",
        "epoxy",
        "ebonite",
        "celluloid",
        "casein",
        "acetal",
        "brass",
        "bronze",
        "copper",
        "aluminium",
        "aluminum",
        "stainless-steel",
        "titanium",
        "silver",
        "sterling-silver",
        "black-walnut",
        "ebony",
        "olive",
        "stabilised-wood",
    ] {
        assert!(named(name).is_some(), "{name}");
    }
    assert_eq!(named("ink"), None);
    assert_eq!(ink().unwrap().typical_kg_m3, 1020.0);
    for name in ["brass", "silver", "casein", "olive"] {
        assert!(named(name).unwrap().ink_attacks(), "{name}");
    }
    assert!(!named("acrylic").unwrap().ink_attacks());
    assert_eq!(
        ink().unwrap().source.text(),
        "general engineering tables; from memory"
    );
    assert!(glue().source.text().contains("from memory"));
    assert_eq!(named("glue"), None);
    let acrylic = named("acrylic").unwrap();
    assert_eq!(acrylic.bending_mpa().unwrap().0, 20.0);
    assert!((acrylic.shear_mpa().unwrap().0 - 11.54).abs() < 1e-9);
    assert!((named("hard-maple").unwrap().shear_mpa().unwrap().0 - 3.0).abs() < 1e-9);
    assert_eq!(acrylic.least_walls().plain.to_mm(), 1.0);
}
