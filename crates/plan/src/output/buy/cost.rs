//! What one pen costs.

use super::PenOfBatch;
use super::bought::of_one;
use super::stock::ware;
use crate::output::cut_list::CutStock;
use quillet_geometry::Length;
use quillet_model::{Shelf, Ware};

/// What one of a pen costs, as far as things have prices.
#[derive(Clone, Debug, PartialEq)]
pub struct PenCost {
    /// What it is called.
    pub title: String,
    /// How many are made.
    pub count: u32,
    /// Its stock, by the length that is sawn, kerf counted, at what a length costs.
    pub materials: f64,
    /// Its bought parts, whether they are on the shelf or not.
    pub parts: f64,
    /// Its hours at the rate.
    pub hours: f64,
    /// What of it has no price, in a maker's words.
    pub unpriced: Vec<String>,
}

impl PenCost {
    /// One of them.
    pub fn each(&self) -> f64 {
        self.materials + self.parts + self.hours
    }

    /// All of them.
    pub fn in_all(&self) -> f64 {
        self.each() * f64::from(self.count)
    }

    pub(super) fn of(it: &PenOfBatch<'_>, shelf: Option<&Shelf>) -> PenCost {
        let mut cost = PenCost {
            title: it.pen.title_or_name().to_owned(),
            count: it.count,
            materials: 0.0,
            parts: 0.0,
            hours: 0.0,
            unpriced: Vec::new(),
        };
        let list = it.one();
        for stock in &list.stocks {
            let sawn: Length = stock
                .pieces
                .iter()
                .map(|piece| piece.length + list.kerf)
                .sum();
            match shelf.and_then(|shelf| price_a_mm(stock, shelf)) {
                Some(price) => cost.materials += price * sawn.to_mm(),
                None => cost.unpriced.push(format!(
                    "{} {} {}",
                    stock.material.title_or_name(),
                    stock.section.word(),
                    quillet_geometry::number(stock.size.to_mm(), 2)
                )),
            }
        }
        for part in of_one(it.pen, shelf) {
            match part.price {
                Some(price) => cost.parts += price * f64::from(part.needed),
                None => cost.unpriced.push(part.title),
            }
        }
        let hours = shelf.and_then(|shelf| Some(shelf.hours(&it.pen.name.text)? * shelf.rate?));
        match hours {
            Some(hours) => cost.hours = hours,
            None => cost.unpriced.push("its hours".to_owned()),
        }
        cost
    }
}

/// What a millimetre of stock costs: of the length it comes in where that has a price, else of the
/// first length that has one.
fn price_a_mm(stock: &CutStock, shelf: &Shelf) -> Option<f64> {
    let of_its_own = stock.length.and_then(|length| {
        let price = shelf.price(&ware(stock, length)?)?;
        Some(price / length.to_mm())
    });
    let of_any = || {
        shelf.prices.iter().find_map(|it| match it.ware {
            Ware::Stock { length, .. } if ware(stock, length)?.is(&it.ware) => {
                Some(it.price / length.to_mm())
            }
            _ => None,
        })
    };
    of_its_own.or_else(of_any)
}
