//! Statements that stand in several blocks.

use super::word;
use crate::grammar::{Place, Word};

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    word(Place::Want, "within", "Between two values", "want turns within 0.75..2"),

    word(Place::Accept, "at", "The stations between which it is accepted", "accept thin-wall at 3..9 because \"a lining follows\""),
    word(Place::Accept, "because", "The reason, which the sheet prints", "accept thin-wall because \"a lining follows\""),
];

/// All that may be said of what is wanted; each place shows first what is wanted there most.
pub(crate) const WANT: &str = "want MEASURE (< VALUE | <= VALUE | > VALUE | >= VALUE | = VALUE +- TOLERANCE | within LOW..HIGH)";
