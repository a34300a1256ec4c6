//! Lines of a material.

use super::{Statement, statement};
use crate::grammar::Place;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Material, "kind KIND", "The built-in kind whose figures hold where nothing else is said", "kind acrylic"),
    statement(Place::Material, "density DENSITY", "Density in g/cm³", "density 1.19"),
    statement(Place::Material, "wall LENGTH", "The least wall that this material stands", "wall 0.9"),
    statement(Place::Material, "speed LOW..HIGH", "Cutting speed in m/min", "speed 60..120"),
];
