//! The pages of a sheet: what stands where on the paper.

mod alike;
mod before;
mod block;
mod canvas;
mod frame;
mod last;
mod mandrel;
mod part;
mod pen;
mod small;
mod strip;

pub use canvas::Field;
pub(super) use canvas::TICK_MM;

use super::content::{Content, PartSheet};
use super::row::HoldingRow;
use crate::draw::Paper;
use crate::scene::Scene;
use alike::AlikeParts;
use canvas::Canvas;

/// What every page of a design with errors says.
pub(super) const DO_NOT_CUT: &str = "This design has errors: do not cut.";

/// A page, and what is filled in on it.
#[derive(Clone, Debug)]
pub(super) struct SheetPage {
    /// What is printed.
    pub(super) scene: Scene,
    /// Boxes, figures as made and names.
    pub(super) fields: Vec<Field>,
}

/// The pages of a sheet, in order: the pen, before you start, each part, putting it together.
pub(super) fn pages(c: &Content, paper: Paper) -> Vec<SheetPage> {
    let mut before = before::pages(c, paper);
    // Each with how many parts stand on it.
    let mut made: Vec<(usize, Vec<Canvas>)> = Vec::new();
    let mut left: Vec<AlikeParts> = Vec::new();
    // The pages, among those made, whose strip is elsewhere.
    let mut lacking: Vec<usize> = Vec::new();
    let parts = AlikeParts::of(&c.parts);
    let mut rest = parts.as_slice();
    while let [it, others @ ..] = rest {
        if let Some((count, page)) = small::shared(c, paper, rest) {
            let (these, those) = rest.split_at(count);
            made.push((these.iter().map(|it| it.count()).sum(), vec![page]));
            rest = those;
            continue;
        }
        let part = part::part(c, paper, *it, &mut before);
        if part.strip_left {
            left.push(*it);
            lacking.push(made.len());
        }
        made.push((it.count(), part.pages));
        rest = others;
    }
    let left = before.strips(left);
    // What is made of one part needs little to be put together.
    let ended = c.parts.len() == 1 && left.is_empty() && before.ends(c);
    let before = before.pages;
    // The pages of the parts, so that the first page can name them.
    let mut next = 2 + before.len();
    let mut at = Vec::new();
    for (parts, pages) in &made {
        at.extend(std::iter::repeat_n(next, *parts));
        next += pages.len();
    }
    let mut all = vec![pen::page(c, paper, &at)];
    // Where the strips are that found no room on their own pages.
    let mut strips_at = 1 + before.len();
    all.extend(before);
    let mut ending = Vec::new();
    if !ended {
        let elsewhere = !left.is_empty();
        let (last, left) = last::pages(c, paper, left);
        ending.extend(last);
        if elsewhere {
            strips_at = next - 1 + ending.len() + usize::from(!left.is_empty());
        }
        ending.extend(part::templates(c, paper, &left));
    }
    for index in lacking {
        let page = made.get_mut(index).and_then(|it| it.1.first_mut());
        page.into_iter()
            .for_each(|it| frame::strip_at(it, strips_at));
    }
    all.extend(made.into_iter().flat_map(|it| it.1));
    all.extend(ending);
    let of = all.len();
    let numbered = all.into_iter().enumerate().map(|(index, mut page)| {
        frame::ended(&mut page, c, paper, (index + 1, of));
        SheetPage {
            scene: page.scene,
            fields: page.fields,
        }
    });
    numbered.collect()
}

/// What begins the keys of a part's holding.
pub(super) fn key(part: &PartSheet, holding: usize) -> String {
    format!("{}/{holding}", part.name)
}

/// The key of a row of a holding.
pub(super) fn row_key(holding: &str, row: &HoldingRow, index: usize) -> String {
    match row.number {
        Some(number) => format!("{holding}/{number}"),
        None => format!("{holding}/stop{index}"),
    }
}
