//! What the first, the second and the last page show.

use crate::draw::Look;
use quillet_plan::Mandrel;
use serde::Serialize;

/// The pictures of a pen.
#[derive(Clone, Debug, Default)]
pub struct PenPictures {
    pub(crate) capped: Option<Look>,
    pub(crate) uncapped: Option<Look>,
    pub(crate) cutaway: Option<Look>,
    pub(crate) section: Option<Look>,
    pub(crate) exploded: Option<(Look, Vec<Option<f64>>)>,
}

/// A configuration in figures.
#[derive(Clone, Debug, Serialize)]
pub struct PenFigures {
    /// `capped`, `to write`.
    pub state: String,
    /// Length, mass filled and dry, balance from the foremost end, its share of the length; `–` where one
    /// is not known.
    pub cells: [String; 5],
    /// Where it balances, mm from the foremost end.
    #[serde(skip)]
    pub balance_mm: Option<f64>,
    /// The end that is counted from.
    pub from: String,
}

/// A part in the list of the first page.
#[derive(Clone, Debug, Serialize)]
pub struct PartEntry {
    /// Its number in the picture.
    pub number: usize,
    /// Its name.
    pub name: String,
    /// What it is cut from, or that it is bought.
    pub stock: String,
    /// What it weighs; `–` where that is not known.
    pub mass: String,
    /// Its place among the parts that are made.
    pub made: Option<usize>,
}

/// Stock and the pieces sawn off it.
#[derive(Clone, Debug, Serialize)]
pub struct Saw {
    /// The stock: `Reed ⌀18, at least 169.2`.
    pub stock: String,
    /// Its diameter or side, mm.
    pub size_mm: f64,
    /// What the saw turns to dust, mm.
    pub kerf_mm: f64,
    /// The pieces in the order they are sawn.
    pub pieces: Vec<SawnPiece>,
}

/// A piece to saw.
#[derive(Clone, Debug, Serialize)]
pub struct SawnPiece {
    /// The part, and which of its pieces.
    pub name: String,
    /// What it is sawn to.
    pub length: String,
    /// What the part is long.
    pub net: String,
    /// It is sawn already, in one of which that is said.
    pub done: bool,
    /// What it is sawn to, mm.
    pub length_mm: f64,
}

/// A mandrel or plug to turn.
#[derive(Clone, Debug, Serialize)]
pub struct Turning {
    /// Its letter.
    pub letter: String,
    /// What it is for.
    pub serves: String,
    /// Its sizes, each as it stands at the picture, outward from the shoulder.
    pub sizes: Vec<String>,
    /// How it is made.
    pub steps: Vec<String>,
    /// The mandrel itself, for its picture.
    #[serde(skip)]
    pub(crate) mandrel: Mandrel,
}

/// Where parts touch, or what is left between them.
#[derive(Clone, Debug, Serialize)]
pub struct Contact {
    /// A capital where they must touch, a small letter where they must not.
    pub letter: String,
    /// They must touch, all round.
    pub touches: bool,
    /// The two places.
    pub between: String,
    /// What is left, as drawn and at worst.
    pub left: Option<(String, String)>,
    /// Where it is in the section, mm on the picture.
    #[serde(skip)]
    pub(crate) spot: crate::scene::Xy,
}
