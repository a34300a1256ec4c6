//! What is bought for a batch of pens, and what they cost.

mod text;

use super::SCHEMA_VERSION;
use super::rounded;
use quillet_geometry::Length;
use quillet_model::{Shelf, Units};
use quillet_pen::{Buying, PlannedPen};
use quillet_plan::{PartToBuy, PenCost, StockToBuy};
use serde::Serialize;

/// What is bought for pens made together.
#[derive(Serialize)]
pub struct BuyReport {
    schema_version: u32,
    of: String,
    shelf: Option<String>,
    kerf_mm: f64,
    stocks: Vec<StockReport>,
    parts: Vec<PartReport>,
    /// What all that is bought costs, as far as it has a price.
    price: f64,
    /// How many things to buy have none.
    unpriced: usize,
    costs: Vec<CostReport>,
}

#[derive(Serialize)]
struct StockReport {
    blank: Option<String>,
    material: String,
    section: &'static str,
    size_mm: f64,
    wall_mm: Option<f64>,
    pieces: usize,
    /// The lengths on the shelf that are cut.
    had_mm: Vec<f64>,
    /// The length it is bought in, where that is known.
    length_mm: Option<f64>,
    lengths_to_buy: usize,
    /// The pieces to buy, end to end with the cuts between.
    to_buy_mm: f64,
    too_long: usize,
    /// Left of each length that is cut, where it is over 30 mm.
    remnants_mm: Vec<f64>,
    price_each: Option<f64>,
    price: Option<f64>,
}

#[derive(Serialize)]
struct PartReport {
    part: String,
    title: String,
    needed: u32,
    had: u32,
    to_buy: u32,
    price_each: Option<f64>,
    price: Option<f64>,
}

#[derive(Serialize)]
struct CostReport {
    pen: String,
    count: u32,
    materials: f64,
    parts: f64,
    hours: f64,
    each: f64,
    in_all: f64,
    unpriced: Vec<String>,
}

impl BuyReport {
    /// Of pens that are made together, with what is on a shelf.
    pub fn of(pens: &[PlannedPen<'_>], shelf: Option<&Shelf>) -> Self {
        let buying = Buying::of(pens, shelf);
        let found = &buying.list;
        Self {
            schema_version: SCHEMA_VERSION,
            of: buying.of.clone(),
            shelf: shelf.map(|shelf| shelf.name.text.to_string()),
            kerf_mm: found.kerf.to_mm(),
            price: found.price(),
            unpriced: found.unpriced(),
            stocks: found.stocks.iter().map(StockReport::of).collect(),
            parts: found.parts.iter().map(PartReport::of).collect(),
            costs: found.costs.iter().map(CostReport::of).collect(),
        }
    }

    /// For programs.
    pub fn json(&self) -> String {
        rounded(self)
    }

    /// For people; with `priced`, what each pen costs besides.
    pub fn text(&self, units: Units, priced: bool) -> String {
        text::of(self, units, priced)
    }
}

impl StockReport {
    fn of(stock: &StockToBuy) -> Self {
        let all = |lengths: &[Length]| lengths.iter().map(|it| it.to_mm()).collect();
        Self {
            blank: stock.blank.as_ref().map(ToString::to_string),
            material: stock.material.title_or_name().to_owned(),
            section: stock.section.word(),
            size_mm: stock.size.to_mm(),
            wall_mm: stock.wall.map(Length::to_mm),
            pieces: stock.pieces,
            had_mm: all(&stock.had),
            length_mm: stock.length.map(Length::to_mm),
            lengths_to_buy: stock.lengths,
            to_buy_mm: stock.end_to_end.to_mm(),
            too_long: stock.too_long,
            remnants_mm: all(&stock.remnants),
            price_each: stock.price,
            price: stock.price_in_all(),
        }
    }
}

impl PartReport {
    fn of(part: &PartToBuy) -> Self {
        Self {
            part: part.name.to_string(),
            title: part.title.clone(),
            needed: part.needed,
            had: part.had,
            to_buy: part.buy(),
            price_each: part.price,
            price: part.price_in_all(),
        }
    }
}

impl CostReport {
    fn of(cost: &PenCost) -> Self {
        Self {
            pen: cost.title.clone(),
            count: cost.count,
            materials: cost.materials,
            parts: cost.parts,
            hours: cost.hours,
            each: cost.each(),
            in_all: cost.in_all(),
            unpriced: cost.unpriced.clone(),
        }
    }
}
