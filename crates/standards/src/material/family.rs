//! `Family`: materials that behave alike under a tool.

use serde::Deserialize;

/// Materials that behave alike under a tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Family {
    /// Acrylic and casting resins.
    Resin,
    /// Engineering plastics: acetal, nylon, polycarbonate.
    Plastic,
    /// Hard rubber.
    Ebonite,
    /// Cellulose nitrate, acetate and butyrate.
    Celluloid,
    /// Milk plastic.
    Casein,
    /// Timber, plain or stabilised.
    Wood,
    /// Metals.
    Metal,
    /// Soft rubber: sacs and O-rings. It is not turned.
    Rubber,
    /// Ink.
    Liquid,
}

impl Family {
    /// All families.
    pub const ALL: [Family; 9] = [
        Family::Resin,
        Family::Plastic,
        Family::Ebonite,
        Family::Celluloid,
        Family::Casein,
        Family::Wood,
        Family::Metal,
        Family::Rubber,
        Family::Liquid,
    ];

    /// The family in a word.
    pub const fn word(self) -> &'static str {
        match self {
            Family::Resin => "resin",
            Family::Plastic => "plastic",
            Family::Ebonite => "ebonite",
            Family::Celluloid => "celluloid",
            Family::Casein => "casein",
            Family::Wood => "wood",
            Family::Metal => "metal",
            Family::Rubber => "rubber",
            Family::Liquid => "liquid",
        }
    }
}
