//! A shelf by its name, which nothing refers to: a bench may bear the same.

use crate::Cursor;
use quillet_model::Shelf;

/// The shelf on whose name the cursor is, in the file asked for.
pub(crate) fn at(cursor: Cursor<'_>) -> Option<&Shelf> {
    let here = |it: &&Shelf| {
        let name = it.name.span;
        name.file == cursor.file.id && name.touches(cursor.offset)
    };
    let shelves = cursor.analysis.design.shelves.iter();
    shelves.map(AsRef::as_ref).find(here)
}

/// What stands on it and what it says of prices, in short: `4 things kept, 3 prices, 1 pen's hours`.
pub(crate) fn in_short(shelf: &Shelf) -> String {
    let kept: u32 = shelf.have.iter().map(|it| it.count).sum();
    let counted = |count: usize, one: &str, many: &str| match count {
        0 => None,
        1 => Some(format!("1 {one}")),
        count => Some(format!("{count} {many}")),
    };
    let all = [
        counted(kept as usize, "thing kept", "things kept"),
        counted(shelf.prices.len(), "price", "prices"),
        counted(shelf.hours.len(), "pen’s hours", "pens’ hours"),
    ];
    let all: Vec<String> = all.into_iter().flatten().collect();
    all.join(", ")
}
