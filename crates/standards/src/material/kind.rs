//! The built-in kinds of material.

use std::sync::LazyLock;

use serde::Deserialize;

use super::cutting::{self, Cutting, Operation};
use super::family::Family;
use super::walls::{self, LeastWalls};
use crate::{Colour, Source, table};
use quillet_geometry::Length;

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
    finest_pitch_mm: Option<f64>,
    modulus_gpa: Option<f64>,
    strain_percent: Option<f64>,
    colour: String,
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

    /// What it commonly looks like, finished, as a picture shows it: from memory.
    pub fn colour(&self) -> Colour {
        Colour::read(&self.colour).unwrap_or(Colour::UNKNOWN)
    }

    /// Linear expansion in millionths per kelvin, woods across the grain, and its source.
    pub fn expansion_per_million_k(&self) -> Option<(f64, Source)> {
        self.expansion_per_million_k.map(|value| (value, EXPANSION))
    }

    /// Young's modulus in GPa, of wood across the grain, and its source.
    pub fn modulus_gpa(&self) -> Option<(f64, Source)> {
        self.modulus_gpa.map(|value| (value, ELASTIC))
    }

    /// The strain in per cent that it bears day by day, as a snap does, and its source; 0 where it
    /// bears none.
    pub fn strain_percent(&self) -> Option<(f64, Source)> {
        self.strain_percent.map(|value| (value, ELASTIC))
    }

    /// Poisson's ratio, and its source: 0.33 of metals, 0.35 of everything else that is turned.
    pub fn poisson(&self) -> (f64, Source) {
        let value = match self.family {
            Family::Metal => 0.33,
            _ => 0.35,
        };
        (value, ELASTIC)
    }

    /// The bending stress in MPa that a part may carry for years, and its source.
    pub fn bending_mpa(&self) -> Option<(f64, Source)> {
        self.bending_mpa.map(|value| (value, Source::PRACTICE))
    }

    /// The shear stress in MPa that a thread may carry for years, and its source: 0.577 of the
    /// bending stress (von Mises); 0.15 of it in wood, which shears along its grain (USDA Wood
    /// Handbook, hard maple: 16 of 109 MPa; from memory).
    pub fn shear_mpa(&self) -> Option<(f64, Source)> {
        let share = match self.family {
            Family::Wood => 0.15,
            _ => 0.577,
        };
        let bending = self.bending_mpa?;
        Some((bending * share, Source::PRACTICE))
    }

    /// True where ink that stays on it stains, swells or corrodes it: common practice.
    pub fn ink_attacks(&self) -> bool {
        self.ink_attacks == "yes"
    }

    /// The finest pitch that holds in it in a thread of this diameter; none where any does. Grain or
    /// flakes let a finer one break out. Wood moves across its grain in proportion to its size, so
    /// that a wide thread has to be deeper: above 16 mm the pitch grows with the diameter. Common
    /// practice, no published source.
    pub fn finest_pitch(&self, major: Length) -> Option<Length> {
        let finest = Length::mm(self.finest_pitch_mm?);
        let wide = match self.family {
            Family::Wood => major.ratio(WIDE).max(1.0),
            _ => 1.0,
        };
        Some(finest.scaled(wide))
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

/// The kinds that share a word with a name: `polyester-resin` of `resin`.
pub fn akin(name: &str) -> impl Iterator<Item = &'static str> {
    let shares = move |kind: &&str| {
        kind.split('-')
            .any(|word| name.split('-').any(|it| it == word))
    };
    all().map(Material::kind).filter(shares)
}

/// The density of ink.
pub fn ink() -> Option<Density> {
    Some(liquid("ink"))
}

/// The density of the glue between the pieces of a stack, cured.
pub fn glue() -> Density {
    liquid("glue")
}

fn liquid(kind: &str) -> Density {
    ROWS.iter().find(|row| row.kind == kind).map_or_else(
        || panic!("the table of materials lacks {kind}"),
        Material::density,
    )
}

/// Up to this diameter a thread in wood is judged by its pitch alone.
const WIDE: Length = Length::from_nm(16_000_000);

const EXPANSION: Source = Source::new("general engineering tables, from memory");

const ELASTIC: Source = Source::new("tables of the strength of materials, from memory");

static ROWS: LazyLock<Vec<Material>> =
    LazyLock::new(|| table::rows(include_str!("../../data/materials.csv")));

#[cfg(test)]
mod tests;
