//! Figures as cells: with their unit, or not known.

use crate::report::table::Cell;
use quillet_geometry::Length;
use quillet_model::Units;

/// What stands for a figure that rests on something missing.
pub(in crate::report::measure) const UNKNOWN: &str = "not known";

/// From what to what a figure may lie, beside it.
pub(super) fn between(range: Option<[f64; 2]>) -> Cell {
    Cell::left(range.map_or(String::new(), |[low, high]| {
        format!("{low:.2} to {high:.2}")
    }))
}

/// The same of lengths, without their unit.
pub(super) fn lengths_between(range: Option<[f64; 2]>, units: Units) -> Cell {
    Cell::left(range.map_or(String::new(), |range| range_of(range, units)))
}

pub(super) fn range_of([low, high]: [f64; 2], units: Units) -> String {
    let number = |mm: f64| units.number(Length::mm(mm));
    format!("{} to {}", number(low), number(high))
}

/// A figure to the hundredth with its unit; what rounds to nothing has no sign.
pub(super) fn figure(value: Option<f64>, unit: &str) -> Cell {
    let reported = |value: f64| format!("{:.2} {unit}", (value * 100.0).round() / 100.0 + 0.0);
    Cell::right(value.map_or(UNKNOWN.to_owned(), reported))
}

/// A length with its unit.
pub(super) fn length(mm: Option<f64>, units: Units) -> Cell {
    Cell::right(mm.map_or(UNKNOWN.to_owned(), |mm| size(mm, units)))
}

/// How thick a wall is; one that is broken through is none.
pub(super) fn thickness(mm: f64, units: Units) -> Cell {
    match mm > 0.0 {
        true => length(Some(mm), units),
        false => Cell::right("none"),
    }
}

pub(super) fn size(mm: f64, units: Units) -> String {
    units.length(Length::mm(mm))
}
