//! The stock of a cut list as moulds that it is cast in.

use crate::{CutList, CutStock};
use quillet_geometry::Length;
use quillet_model::Material;
use quillet_standards::cast::{MouldSection, Moulds};
use quillet_standards::material::Family;
use quillet_syntax::ast::StockSection;
use std::sync::Arc;

impl CutList {
    /// The moulds for each resin that is sawn, round or square, in the order of the list.
    pub fn moulds(&self) -> Vec<(Arc<Material>, Vec<Moulds>)> {
        let mut of_resins: Vec<(Arc<Material>, Vec<Moulds>)> = Vec::new();
        for stock in self.stocks.iter().filter(|it| is_cast(it)) {
            let moulds = moulds(stock);
            let same = |(it, _): &&mut (Arc<Material>, _)| it.name == stock.material.name;
            match of_resins.iter_mut().find(same) {
                Some((_, all)) => all.extend(moulds),
                None => of_resins.push((stock.material.clone(), moulds)),
            }
        }
        of_resins
    }
}

/// A tube is not poured, and no wood.
fn is_cast(stock: &CutStock) -> bool {
    stock.section != StockSection::Tube && stock.material.kind.family() == Family::Resin
}

/// The lengths that the stock comes in where that is said, else each piece as it is sawn; those of one
/// length together.
fn moulds(stock: &CutStock) -> Vec<Moulds> {
    let rods = stock.packing.as_ref().map_or(0, |it| it.rods.len());
    let lengths: Vec<Length> = match stock.length {
        Some(length) => vec![length; rods],
        None => stock.pieces.iter().map(|piece| piece.length).collect(),
    };
    let section = match stock.section {
        StockSection::Square => MouldSection::Square,
        _ => MouldSection::Rod,
    };
    let mut all: Vec<Moulds> = Vec::new();
    for length in lengths {
        match all.iter_mut().find(|it| it.length == length) {
            Some(same) => same.count += 1,
            None => all.push(Moulds {
                count: 1,
                section,
                size: stock.size,
                length,
            }),
        }
    }
    all
}
