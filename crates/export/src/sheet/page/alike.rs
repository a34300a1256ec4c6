//! Parts that are made alike: two share all that is printed of them, each with its line for what it came to.

use super::key;
use crate::sheet::content::PartSheet;
use std::ops::Deref;

/// So many share a cell: more lines side by side are too short to write on.
const MOST: usize = 2;

/// A part as its page shows it, or two; what is said of the first holds for both.
#[derive(Clone, Copy)]
pub(super) struct AlikeParts<'c> {
    first: &'c PartSheet,
    all: &'c [PartSheet],
}

impl Deref for AlikeParts<'_> {
    type Target = PartSheet;

    fn deref(&self) -> &PartSheet {
        self.first
    }
}

impl<'c> AlikeParts<'c> {
    /// The parts of a list in their order, those together that follow each other and are alike.
    pub(super) fn of(parts: &'c [PartSheet]) -> Vec<AlikeParts<'c>> {
        let runs = parts.chunk_by(is_alike).flat_map(|it| it.chunks(MOST));
        let each = runs.filter_map(|all| {
            let first = all.first()?;
            Some(AlikeParts { first, all })
        });
        each.collect()
    }

    pub(super) fn count(self) -> usize {
        self.all.len()
    }

    /// `Band, Ring`.
    pub(super) fn titles(self) -> String {
        let titles: Vec<&str> = self.all.iter().map(|it| &*it.title).collect();
        titles.join(", ")
    }

    /// What stands beside the title.
    pub(super) fn said(self) -> String {
        match self.count() {
            1 => self.about.clone(),
            count => format!("{count} of these: {}", self.about),
        }
    }

    /// `band, ring`.
    pub(super) fn names(self) -> String {
        let names: Vec<&str> = self.all.iter().map(|it| &*it.name).collect();
        names.join(", ")
    }

    /// The name of each.
    pub(super) fn each(self) -> impl Iterator<Item = &'c str> {
        self.all.iter().map(|it| &*it.name)
    }

    /// What begins the keys of each one's holding.
    pub(super) fn keys(self, holding: usize) -> Vec<String> {
        self.all.iter().map(|it| key(it, holding)).collect()
    }
}

/// Whether all that is printed of one is true of the other; nothing is known yet of what either came to.
fn is_alike(one: &PartSheet, other: &PartSheet) -> bool {
    let begun = |it: &PartSheet| {
        it.holdings
            .iter()
            .any(|it| it.rows.iter().any(|it| it.done))
    };
    if begun(one) || begun(other) {
        return false;
    }
    let held = |it: &PartSheet| {
        let holdings = it.holdings.iter();
        let each = holdings.map(|it| (it.title.clone(), it.grip.clone(), it.rows.clone()));
        each.collect::<Vec<_>>()
    };
    (&one.about, &one.length, &one.notes) == (&other.about, &other.length, &other.notes)
        && one.labels == other.labels
        && one.strip == other.strip
        && held(one) == held(other)
}
