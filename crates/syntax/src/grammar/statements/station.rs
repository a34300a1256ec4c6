//! Stations of an outside.

use super::{Statement, statement, word};
use crate::grammar::{Place, Word};

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Station, "at STATION [from END] dia DIAMETER [smooth | dome | bead RADIUS | cove RADIUS] [step DIAMETER] [round RADIUS | chamfer LEG] [as FACE]", "A station: a length from the first end, from another end, or an end's name", "at 6 from crown dia 14.4 smooth"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    word(Place::StationTail, "from", "The end the length runs from", "at 6 from crown dia 14.4"),
    word(Place::StationTail, "dia", "The finished diameter", "at 30 dia 15.8"),
    word(Place::StationTail, "smooth", "The surface comes to the station in a smooth curve that never overshoots", "at 30 dia 15.8 smooth"),
    word(Place::StationTail, "dome", "The surface closes in a quarter ellipse", "at crown dia 0 dome"),
    word(Place::StationTail, "bead", "The surface comes to the station in a convex arc of a radius", "at 12 dia 14 bead 3"),
    word(Place::StationTail, "cove", "The surface comes to the station in a concave arc of a radius", "at 12 dia 14 cove 3"),
    word(Place::StationTail, "step", "The surface arrives at the first diameter and leaves at this one", "at 20 dia 12 step 10"),
    word(Place::StationTail, "round", "Rounds the corner with a radius", "at 20 dia 12 round 0.5"),
    word(Place::StationTail, "chamfer", "Breaks the corner at 45°; the figure is the leg", "at 20 dia 12 chamfer 0.5"),
    word(Place::StationTail, "as", "Names the face here, for seat and distance", "at 22 dia 11.4 as shoulder"),
];
