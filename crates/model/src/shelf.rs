//! What is on the shelf, and what things cost: the maker's own.

use crate::Material;
use quillet_geometry::Length;
use quillet_syntax::Span;
use quillet_syntax::ast::{Name, StockSection};
use std::sync::Arc;

/// A shelf: what is on it and what things cost. Money is a bare number.
#[derive(Clone, Debug)]
pub struct Shelf {
    /// Its name.
    pub name: Name,
    /// The whole item.
    pub span: Span,
    /// What is there, a line each, in the order written.
    pub have: Vec<OnShelf>,
    /// What things cost, in the order written.
    pub prices: Vec<Priced>,
    /// How many hours pens take, by the pen's name.
    pub hours: Vec<(Arc<str>, f64)>,
    /// What an hour costs, where said.
    pub rate: Option<f64>,
}

/// So many of a ware.
#[derive(Clone, Debug)]
pub struct OnShelf {
    /// What.
    pub ware: Ware,
    /// How many.
    pub count: u32,
}

/// A ware with its price.
#[derive(Clone, Debug)]
pub struct Priced {
    /// What.
    pub ware: Ware,
    /// What one of it costs.
    pub price: f64,
}

/// What is kept on a shelf.
#[derive(Clone, Debug)]
pub enum Ware {
    /// A length of stock.
    Stock {
        /// Its material.
        material: Arc<Material>,
        /// Round or square.
        section: StockSection,
        /// Diameter or side.
        size: Length,
        /// How long.
        length: Length,
    },
    /// A bought part, by its name.
    Bought(Arc<str>),
}

impl Ware {
    /// Whether both are the same thing.
    pub fn is(&self, other: &Ware) -> bool {
        match (self, other) {
            (Ware::Bought(one), Ware::Bought(other)) => one == other,
            (
                Ware::Stock {
                    material,
                    section,
                    size,
                    length,
                },
                Ware::Stock {
                    material: of,
                    section: shape,
                    size: thick,
                    length: long,
                },
            ) => {
                let alike = (section, size, length) == (shape, thick, long);
                alike && material.name == of.name
            }
            _ => false,
        }
    }
}

impl Shelf {
    /// What one of a ware costs, where that is said.
    pub fn price(&self, ware: &Ware) -> Option<f64> {
        let priced = self.prices.iter().find(|it| it.ware.is(ware));
        priced.map(|it| it.price)
    }

    /// How many of a bought part are there.
    pub fn bought(&self, part: &str) -> u32 {
        let counts = self.have.iter().filter_map(|it| match &it.ware {
            Ware::Bought(name) if &**name == part => Some(it.count),
            _ => None,
        });
        counts.fold(0, u32::saturating_add)
    }

    /// How many hours a pen takes, where that is said.
    pub fn hours(&self, pen: &str) -> Option<f64> {
        let of = self.hours.iter().find(|(name, _)| &**name == pen);
        of.map(|(_, hours)| *hours)
    }
}
