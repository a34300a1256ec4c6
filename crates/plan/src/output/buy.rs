//! What is bought for a batch of pens: stock by the whole length, parts by the piece.

mod bought;
mod cost;
mod stock;

pub use bought::PartToBuy;
pub use cost::PenCost;
pub use stock::StockToBuy;

use crate::Plan;
use crate::output::cut_list::{BatchMember, CutList};
use quillet_geometry::Length;
use quillet_model::{Bench, Pen, Shelf};

/// A pen of a batch with its plan.
#[derive(Clone, Copy, Debug)]
pub struct PenOfBatch<'d> {
    /// The pen.
    pub pen: &'d Pen,
    /// How it is made.
    pub plan: &'d Plan,
    /// The bench it is made at.
    pub bench: Option<&'d Bench>,
    /// How many are made.
    pub count: u32,
}

/// What is bought for a batch, and what its pens cost.
#[derive(Clone, Debug)]
pub struct BuyList {
    /// The saw's kerf reckoned with.
    pub kerf: Length,
    /// One for each kind of stock, as in the cut list.
    pub stocks: Vec<StockToBuy>,
    /// One for each bought part, in the order the pens name them.
    pub parts: Vec<PartToBuy>,
    /// What one of each pen costs.
    pub costs: Vec<PenCost>,
}

impl BuyList {
    /// For pens that are made together, their cut list, and what is on a shelf: that is cut first, the
    /// shortest that fits.
    pub fn of(pens: &[PenOfBatch<'_>], list: &CutList, shelf: Option<&Shelf>) -> BuyList {
        let costs = pens.iter().map(|it| PenCost::of(it, shelf));
        BuyList {
            kerf: list.kerf,
            stocks: stock::stocks(list, shelf),
            parts: bought::parts(pens, shelf),
            costs: costs.collect(),
        }
    }

    /// What all that is bought costs, as far as it has a price.
    pub fn price(&self) -> f64 {
        let stocks = self.stocks.iter().filter_map(StockToBuy::price_in_all);
        let parts = self.parts.iter().filter_map(PartToBuy::price_in_all);
        // A sum of nothing would be written with a sign, -0.00.
        stocks.chain(parts).fold(0.0, |all, it| all + it)
    }

    /// How many things are bought that have no price.
    pub fn unpriced(&self) -> usize {
        let stocks = self.stocks.iter();
        let stocks = stocks.filter(|it| it.is_bought() && it.price.is_none());
        let parts = self.parts.iter();
        let parts = parts.filter(|it| it.buy() > 0 && it.price.is_none());
        stocks.count() + parts.count()
    }
}

impl PenOfBatch<'_> {
    /// The cut list of one of it by itself.
    fn one(&self) -> CutList {
        CutList::of_batch(&[BatchMember {
            plan: self.plan,
            bench: self.bench,
            pen: None,
            count: 1,
        }])
    }
}
