//! Bought parts by the piece.

use super::PenOfBatch;
use quillet_model::{Cut, Part, Pen, Shelf, Ware};
use std::sync::Arc;

/// A bought part with how many are needed and how many are there.
#[derive(Clone, Debug, PartialEq)]
pub struct PartToBuy {
    /// Its name.
    pub name: Arc<str>,
    /// What it is called.
    pub title: String,
    /// How many the batch needs.
    pub needed: u32,
    /// How many of those are on the shelf.
    pub had: u32,
    /// What one costs, where that is said.
    pub price: Option<f64>,
}

impl PartToBuy {
    /// How many are bought.
    pub fn buy(&self) -> u32 {
        self.needed - self.had
    }

    /// What those cost, where one has a price.
    pub fn price_in_all(&self) -> Option<f64> {
        self.price.map(|price| price * f64::from(self.buy()))
    }
}

/// All bought parts of a batch.
pub(super) fn parts(pens: &[PenOfBatch<'_>], shelf: Option<&Shelf>) -> Vec<PartToBuy> {
    let mut parts: Vec<PartToBuy> = Vec::new();
    for it in pens {
        for mut part in of_one(it.pen, shelf) {
            part.needed = part.needed.saturating_mul(it.count);
            match parts.iter_mut().find(|known| known.name == part.name) {
                Some(known) => known.needed = known.needed.saturating_add(part.needed),
                None => parts.push(part),
            }
        }
    }
    for part in &mut parts {
        let there = shelf.map_or(0, |shelf| shelf.bought(&part.name));
        part.had = there.min(part.needed);
    }
    parts
}

/// Those of one pen: what its joints name, and what sits in its parts' grooves and holes.
pub(super) fn of_one(pen: &Pen, shelf: Option<&Shelf>) -> Vec<PartToBuy> {
    let mut parts: Vec<PartToBuy> = Vec::new();
    let mut add = |name: &Arc<str>, title: &str, count: u32| match parts
        .iter_mut()
        .find(|it| it.name == *name)
    {
        Some(known) => known.needed = known.needed.saturating_add(count),
        None => parts.push(PartToBuy {
            name: name.clone(),
            title: title.to_owned(),
            needed: count,
            had: 0,
            price: shelf.and_then(|it| it.price(&Ware::Bought(name.clone()))),
        }),
    };
    let bought = pen.parts.iter().filter(|part| part.is_bought());
    let is_joined = |name: &Arc<str>| pen.parts.iter().any(|it| it.name.text == *name);
    for part in bought {
        let title = part.title().map_or(&part.name.text, |it| &it.text);
        add(&part.name.text, title, 1);
    }
    for part in pen.parts.iter() {
        for (name, count) in seated(part) {
            if !is_joined(name) {
                add(name, name, count);
            }
        }
    }
    parts
}

/// What sits in a part's grooves, recesses and holes, and how many.
fn seated(part: &Part) -> Vec<(&Arc<str>, u32)> {
    let grooves = part.features.iter().filter_map(|it| match &it.cut {
        Cut::Groove { takes, .. } | Cut::Recess { takes, .. } => takes.as_ref(),
        _ => None,
    });
    let grooves = grooves.map(|name| (&name.text, 1));
    let around = part.sides().iter().map(|it| &it.around);
    let around = around.chain(part.circles().iter().map(|it| &it.around));
    let around = around.filter_map(|it| Some((&it.takes.as_ref()?.text, it.count)));
    grooves.chain(around).collect()
}
