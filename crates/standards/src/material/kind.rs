//! The built-in kinds of material.

use std::sync::LazyLock;

use serde::Deserialize;

use super::cutting::{self, Cutting, Operation};
use super::family::Family;
use super::walls::{self, LeastWalls};
use crate::{Source, table};

/// A built-in kind of material, as a maker names it: `acrylic`, `black-walnut`.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Material {
    kind: String,
    aliases: String,
    title: String,
    family: Family,
    machining: String,
    low_kg_m3: f64,
    typical_kg_m3: f64,
    high_kg_m3: f64,
    density_source: String,
    expansion_per_million_k: Option<f64>,
    bending_mpa: Option<f64>,
    ink_attacks: String,
    crumbles: String,
    note: String,
}

/// The density of a material at about 20 °C; woods at 12 % moisture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Density {
    /// Least.
    pub low_kg_m3: f64,
    /// What is reckoned with.
    pub typical_kg_m3: f64,
    /// Greatest.
    pub high_kg_m3: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Material {
    /// The name it goes by, lower-case with hyphens.
    pub fn kind(&self) -> &str {
        &self.kind
    }

    /// Other names it answers to.
    pub fn aliases(&self) -> impl Iterator<Item = &str> {
        self.aliases.split_whitespace()
    }

    /// What it is, in full.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// The family it behaves like.
    pub const fn family(&self) -> Family {
        self.family
    }

    /// What its density table adds; empty for most.
    pub fn note(&self) -> &str {
        &self.note
    }

    /// Its density.
    pub fn density(&'static self) -> Density {
        Density {
            low_kg_m3: self.low_kg_m3,
            typical_kg_m3: self.typical_kg_m3,
            high_kg_m3: self.high_kg_m3,
            source: Source::new(&self.density_source),
        }
    }

    /// Linear expansion in millionths per kelvin, woods across the grain, and its source.
    pub fn expansion_per_million_k(&self) -> Option<(f64, Source)> {
        self.expansion_per_million_k.map(|value| (value, EXPANSION))
    }

    /// The bending stress in MPa that a part may carry for years, and its source.
    pub fn bending_mpa(&self) -> Option<(f64, Source)> {
        self.bending_mpa.map(|value| (value, Source::PRACTICE))
    }

    /// True where ink that stays on it stains, swells or corrodes it: common practice.
    pub fn ink_attacks(&self) -> bool {
        self.ink_attacks == "yes"
    }

    /// True where grain or flakes let a fine thread break out: common practice.
    pub fn crumbles(&self) -> bool {
        self.crumbles == "yes"
    }

    /// Speeds and feeds.
    pub fn cutting(&self, operation: Operation) -> Option<&'static Cutting> {
        cutting::of_group(&self.machining, operation)
    }

    /// Least walls of its family.
    pub fn least_walls(&self) -> LeastWalls {
        walls::least_walls(self.family)
    }

    /// What its family asks of the maker's health.
    pub fn caution(&self) -> &'static str {
        walls::caution(self.family)
    }
}

/// All kinds that parts are turned from or made of, in families.
pub fn all() -> impl Iterator<Item = &'static Material> {
    ROWS.iter().filter(|row| row.family != Family::Liquid)
}

/// The kind of this name or alias.
pub fn named(name: &str) -> Option<&'static Material> {
    all().find(|row| row.kind == name || row.aliases().any(|alias| alias == name))
}

/// The density of ink.
pub fn ink() -> Option<Density> {
    ROWS.iter()
        .find(|row| row.family == Family::Liquid)
        .map(Material::density)
}

const EXPANSION: Source = Source::new("general engineering tables, from memory");

static ROWS: LazyLock<Vec<Material>> =
    LazyLock::new(|| table::rows(include_str!("../../data/materials.csv")));

#[cfg(test)]
mod tests {
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
            assert!(density.low_kg_m3 < density.typical_kg_m3, "{}", row.kind);
            assert!(density.typical_kg_m3 < density.high_kg_m3, "{}", row.kind);
            assert!(
                ["yes", "no", ""].contains(&row.ink_attacks.as_str()),
                "{}",
                row.kind
            );
            let turned = row.machining.is_empty() || !row.crumbles.is_empty();
            assert!(turned, "{}: whether a thread holds is not said", row.kind);
            if row.family == Family::Wood {
                assert!(row.crumbles(), "{}", row.kind);
            }
            if let Some(group) = Some(&row.machining).filter(|group| !group.is_empty()) {
                assert!(row.cutting(Operation::Turning).is_some(), "{group}");
                assert!(row.cutting(Operation::Drilling).is_some(), "{group}");
            }
        }
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
        assert!(named("flaked-resin").unwrap().crumbles());
        assert!(!named("polyester-resin").unwrap().crumbles());
        let acrylic = named("acrylic").unwrap();
        assert_eq!(acrylic.bending_mpa().unwrap().0, 20.0);
        assert_eq!(acrylic.least_walls().plain.to_mm(), 1.0);
    }
}
