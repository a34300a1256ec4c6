//! Stock: what is cut from the shelf, and what is bought.

use crate::output::cut_list::{CutList, CutStock};
use crate::output::packing::{pack, pack_in_order};
use quillet_geometry::Length;
use quillet_model::{Material, OnShelf, Shelf, Ware};
use quillet_syntax::ast::StockSection;
use std::sync::Arc;

/// A remnant no longer than this is not told (common practice, no published source).
pub(super) const LEAST_REMNANT: Length = Length::from_nm(30_000_000);

/// One kind of stock, as far as it is cut from the shelf and as far as it is bought.
#[derive(Clone, Debug)]
pub struct StockToBuy {
    /// The name of the blank, where it has one.
    pub blank: Option<Arc<str>>,
    /// The material.
    pub material: Arc<Material>,
    /// Round, square or a tube.
    pub section: StockSection,
    /// Diameter, or side of the square.
    pub size: Length,
    /// A tube's wall.
    pub wall: Option<Length>,
    /// How many pieces are sawn.
    pub pieces: usize,
    /// The lengths on the shelf that are cut, as they lie there.
    pub had: Vec<Length>,
    /// The length it is bought in, where that is known.
    pub length: Option<Length>,
    /// How many of that length are bought; 0 where it is not known.
    pub lengths: usize,
    /// What the pieces to buy come to end to end, with the cuts between.
    pub end_to_end: Length,
    /// Pieces longer than the stock.
    pub too_long: usize,
    /// What is left of each length that is cut, where it is longer than 30 mm; longest first.
    pub remnants: Vec<Length>,
    /// What a length costs, where that is said.
    pub price: Option<f64>,
}

impl StockToBuy {
    /// Whether any of it is bought.
    pub fn is_bought(&self) -> bool {
        self.lengths > 0 || self.end_to_end.is_positive()
    }

    /// What the lengths to buy cost, where a length has a price.
    pub fn price_in_all(&self) -> Option<f64> {
        self.price.map(|price| price * self.lengths as f64)
    }
}

/// What is cut from the shelf and bought of each stock.
pub(super) fn stocks(list: &CutList, shelf: Option<&Shelf>) -> Vec<StockToBuy> {
    let on_shelf = shelf.map_or(&[][..], |shelf| &shelf.have);
    let mut rods = Rods::of(on_shelf, list.kerf);
    let each = list.stocks.iter().map(|stock| rods.cut(stock, shelf));
    each.collect()
}

/// A length on the shelf: as it lay there, what is left of it, whether it was cut.
struct OnHand {
    of: Ware,
    length: Length,
    left: Length,
    is_cut: bool,
}

struct Rods {
    rods: Vec<OnHand>,
    kerf: Length,
}

impl Rods {
    fn of(have: &[OnShelf], kerf: Length) -> Rods {
        let rods = have.iter().flat_map(|it| match it.ware {
            Ware::Stock { length, .. } => {
                let rod = || OnHand {
                    of: it.ware.clone(),
                    length,
                    left: length,
                    is_cut: false,
                };
                (0..it.count).map(|_| rod()).collect()
            }
            Ware::Bought(_) => Vec::new(),
        });
        Rods {
            rods: rods.collect(),
            kerf,
        }
    }

    /// Cuts what fits from what is there, and packs the rest on lengths to buy.
    fn cut(&mut self, stock: &CutStock, shelf: Option<&Shelf>) -> StockToBuy {
        let before: Vec<Length> = self.rods.iter().map(|it| it.left).collect();
        let lengths: Vec<Length> = stock.pieces.iter().map(|piece| piece.length).collect();
        let rest = match stock.matched {
            true => self.cut_in_one(stock, &lengths),
            false => self.cut_each(stock, &lengths),
        };
        let touched = self.rods.iter().zip(before);
        let touched: Vec<&OnHand> = touched
            .filter(|(rod, before)| rod.left != *before)
            .map(|(rod, _)| rod)
            .collect();
        let mut remnants: Vec<Length> = touched.iter().map(|rod| rod.left).collect();
        let longest = rest.iter().copied().max();
        let length = stock.length.or_else(|| sold_in(stock, longest, shelf));
        let packing = length.map(|rod| match stock.matched {
            true => pack_in_order(&rest, rod, self.kerf),
            false => pack(&rest, rod, self.kerf),
        });
        for rod in packing.iter().flat_map(|it| &it.rods) {
            let used: Length = rod.iter().map(|at| rest[*at] + self.kerf).sum();
            remnants.extend(length.map(|length| length - used));
        }
        remnants.retain(|it| *it > LEAST_REMNANT);
        remnants.sort_by_key(|it| std::cmp::Reverse(*it));
        let cuts = i64::try_from(rest.len().saturating_sub(1)).unwrap_or(0);
        StockToBuy {
            blank: stock.name.clone(),
            material: stock.material.clone(),
            section: stock.section,
            size: stock.size,
            wall: stock.wall,
            pieces: lengths.len(),
            had: touched.iter().map(|rod| rod.length).collect(),
            length,
            lengths: packing.as_ref().map_or(0, |it| it.rods.len()),
            end_to_end: rest.iter().copied().sum::<Length>() + self.kerf * cuts,
            too_long: packing.map_or(0, |it| it.too_long.len()),
            remnants,
            price: length.and_then(|length| shelf?.price(&ware(stock, length)?)),
        }
    }

    /// Longest first, each piece off the shortest that it still fits on; the pieces that fit on none.
    fn cut_each(&mut self, stock: &CutStock, lengths: &[Length]) -> Vec<Length> {
        let mut longest_first = lengths.to_vec();
        longest_first.sort_by_key(|it| std::cmp::Reverse(*it));
        longest_first.retain(|piece| !self.takes(stock, *piece, *piece + self.kerf));
        longest_first
    }

    /// All in their order off the shortest that they fit on; all where there is none.
    fn cut_in_one(&mut self, stock: &CutStock, lengths: &[Length]) -> Vec<Length> {
        let with_cuts: Length = lengths.iter().map(|piece| *piece + self.kerf).sum();
        match self.takes(stock, with_cuts - self.kerf, with_cuts) {
            true => Vec::new(),
            false => lengths.to_vec(),
        }
    }

    fn takes(&mut self, stock: &CutStock, needs: Length, uses: Length) -> bool {
        let fitting = self.rods.iter_mut();
        let fitting = fitting.filter(|rod| rod.left >= needs && is_of(&rod.of, stock));
        // What was cut already comes before what is as long and still whole.
        let shortest = fitting.min_by_key(|rod| (rod.left, !rod.is_cut));
        let Some(rod) = shortest else { return false };
        rod.left = (rod.left - uses).max(Length::ZERO);
        rod.is_cut = true;
        true
    }
}

/// The stock of this length as it stands on a shelf; none of a tube.
pub(super) fn ware(stock: &CutStock, length: Length) -> Option<Ware> {
    (stock.wall.is_none()).then(|| Ware::Stock {
        material: stock.material.clone(),
        section: stock.section,
        size: stock.size,
        length,
    })
}

fn is_of(ware: &Ware, stock: &CutStock) -> bool {
    let Ware::Stock { length, .. } = ware else {
        return false;
    };
    self::ware(stock, *length).is_some_and(|it| it.is(ware))
}

/// The first length with a price that the longest piece fits on.
fn sold_in(stock: &CutStock, longest: Option<Length>, shelf: Option<&Shelf>) -> Option<Length> {
    let priced = shelf?.prices.iter().filter(|it| is_of(&it.ware, stock));
    let mut lengths = priced.filter_map(|it| match it.ware {
        Ware::Stock { length, .. } => Some(length),
        Ware::Bought(_) => None,
    });
    lengths.find(|length| Some(*length) >= longest)
}
