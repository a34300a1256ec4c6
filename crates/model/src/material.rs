//! Materials as a design names them.

use quillet_geometry::Length;
use quillet_standards::Colour;
use quillet_standards::cast::Mix;
use quillet_standards::material::Material as Kind;
use quillet_syntax::{Span, ast};

/// A material: a name of the design's over one of the built-in kinds.
#[derive(Clone, Debug)]
pub struct Material {
    /// Its name; a built-in kind used directly bears the kind's name.
    pub name: std::sync::Arc<str>,
    /// Its title.
    pub title: Option<ast::Text>,
    /// Where it is defined; none for a built-in kind used directly.
    pub span: Option<Span>,
    /// The built-in kind, with sourced figures.
    pub kind: &'static Kind,
    /// Density in g/cm³, as written or the kind's typical value.
    pub density_g_cm3: f64,
    /// From what to what the density may lie, g/cm³: the kind's range; none where the design states
    /// the density, which is then as weighed.
    pub density_range_g_cm3: Option<(f64, f64)>,
    /// Least wall, where the design says one.
    pub wall: Option<Length>,
    /// Cutting speed in m/min, low and high, where the design says one.
    pub speed_m_min: Option<(f64, f64)>,
    /// How it looks in pictures, as written or the kind's.
    pub colour: Colour,
    /// Young's modulus in GPa, across the grain of wood, as written or the kind's; none where it is
    /// not known.
    pub modulus_gpa: Option<f64>,
    /// The strain in per cent that it bears day by day, as written or the kind's.
    pub strain_percent: Option<f64>,
    /// How the resin is mixed that it is cast from, where the design says so.
    pub mix: Option<Mix>,
    /// Pigment in per cent of the mass of the mix, where the design says so.
    pub pigment_percent: Option<f64>,
}

impl Material {
    /// A built-in kind used directly, by its own name.
    pub fn built_in(name: &str) -> Option<Material> {
        let kind = quillet_standards::material::named(name)?;
        Some(Material {
            name: name.into(),
            title: None,
            span: None,
            kind,
            density_g_cm3: kind.density().typical_kg_m3 / 1000.0,
            density_range_g_cm3: Some(range_of(kind)),
            wall: None,
            speed_m_min: None,
            colour: kind.colour(),
            modulus_gpa: kind.modulus_gpa().map(|(it, _)| it),
            strain_percent: kind.strain_percent().map(|(it, _)| it),
            mix: None,
            pigment_percent: None,
        })
    }
}

/// The range of a kind's density, g/cm³.
pub(crate) fn range_of(kind: &'static Kind) -> (f64, f64) {
    let density = kind.density();
    (density.low_kg_m3 / 1000.0, density.high_kg_m3 / 1000.0)
}
