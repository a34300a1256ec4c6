//! What a failure comes from, and how often, in words.

use quillet_check::chain;
use quillet_model::{Link, Pen, Size, Units};
use quillet_room::spread::{Cause, Failure, Way};

/// `97.0 of 100`; never 100 where one fails, nor 0 where one does.
pub(super) fn of_100(share: f64, all: bool) -> String {
    match (all, share) {
        (true, _) => "all".to_owned(),
        (_, 0.0) => "none of the".to_owned(),
        (_, share) => format!("{:.1} of 100", (100.0 * share).clamp(0.1, 99.9)),
    }
}

/// A size in a maker's words, in the units of the file.
pub(super) fn size_words(pen: &Pen, link: &Link, units: Units) -> String {
    chain::size(pen, link).in_units(units).to_string()
}

/// `nearly always where nib-unit sits further out`.
pub(super) fn where_it_comes(
    pen: &Pen,
    link: &Link,
    units: Units,
    cause: &Cause,
    it: &Failure,
) -> String {
    let often = match f64::from(it.on_that_side) / f64::from(it.share.count.max(1)) {
        share if share >= 0.95 => "nearly always",
        share if share >= 0.75 => "mostly",
        _ => "more often",
    };
    match (link.size, cause.way) {
        (Size::Nib { part }, way) => {
            let way = match way {
                Way::Over => "further out",
                Way::Under => "further in",
                Way::Either => "far out of its place",
            };
            format!("{often} where {} sits {way}", pen.parts[part].name.text)
        }
        (_, way) => {
            let way = match way {
                Way::Over => "comes out over",
                Way::Under => "comes out under",
                Way::Either => "is far off either way",
            };
            format!("{often} where {} {way}", size_words(pen, link, units))
        }
    }
}

pub(super) fn way(way: Way) -> &'static str {
    match way {
        Way::Over => "over",
        Way::Under => "under",
        Way::Either => "either",
    }
}
