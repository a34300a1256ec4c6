//! What is bought for pens that are made together.

use crate::Planned;
use quillet_model::{Design, Pen, Shelf};
use quillet_plan::{BuyList, PenOfBatch};

/// A pen with how it is made, and how many are.
pub struct PlannedPen<'d> {
    pen: &'d Pen,
    planned: Planned<'d>,
}

/// What is bought for a batch, with what was reckoned with.
pub struct Buying {
    /// The pens' titles, with how many where they are several.
    pub of: String,
    /// What is bought, and what the pens cost.
    pub list: BuyList,
}

impl<'d> PlannedPen<'d> {
    /// So many of a pen of a design.
    pub fn of(design: &'d Design, pen: &'d Pen, count: u32) -> Self {
        let planned = Planned::of_pen(design, pen).times(count);
        Self { pen, planned }
    }
}

impl Buying {
    /// For pens that are made together, with what is on a shelf.
    pub fn of(pens: &[PlannedPen<'_>], shelf: Option<&Shelf>) -> Self {
        let cut = Planned::cut_list(pens.iter().map(|it| &it.planned));
        let of_batch = pens.iter().map(|it| PenOfBatch {
            pen: it.pen,
            plan: &it.planned.plan,
            bench: it.planned.bench,
            count: it.planned.count,
        });
        let of_batch: Vec<PenOfBatch> = of_batch.collect();
        let titles: Vec<String> = pens.iter().map(|it| it.planned.counted_title()).collect();
        Self {
            of: titles.join(", "),
            list: BuyList::of(&of_batch, &cut, shelf),
        }
    }
}
