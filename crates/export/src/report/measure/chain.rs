//! What a clearance is the sum of.

use crate::report::sized::SizedWords;
use quillet_check::chain;
use quillet_model::{Design, Link, Pen};
use serde::Serialize;

/// A size of a clearance's chain.
#[derive(Serialize)]
pub(super) struct LinkMeasures {
    what: SizedWords,
    /// Where it is written.
    file: String,
    line: usize,
    /// From how much under the drawn size to how much over it may come out; of a diameter, half
    /// of it.
    under_mm: f64,
    over_mm: f64,
    /// By how much the clearance grows as it grows.
    factor: f64,
    /// How much of the clearance it takes at worst.
    pub(super) takes_mm: f64,
    /// In words, with how closely it is kept.
    #[serde(skip)]
    pub(super) reported: SizedWords,
}

impl LinkMeasures {
    pub(super) fn of(design: &Design, pen: &Pen, link: &Link) -> Self {
        let file = design.file(link.span.file);
        let before = file.and_then(|it| it.text.get(..link.span.start as usize));
        let rounded = |mm: f64| (mm * 1e6).round() / 1e6 + 0.0;
        Self {
            what: chain::size(pen, link).into(),
            file: file.map_or(String::new(), |it| it.path.display().to_string()),
            line: before.map_or(0, |it| it.matches('\n').count() + 1),
            under_mm: rounded(link.range_mm.0),
            over_mm: rounded(link.range_mm.1),
            factor: rounded(link.factor),
            takes_mm: rounded(link.takes_mm()),
            reported: chain::link(pen, link).into(),
        }
    }

    /// Whether it takes so much that it shows.
    pub(super) fn counts(&self) -> bool {
        self.takes_mm >= 5e-3
    }
}
