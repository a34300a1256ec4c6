//! Sums, and the words in them.

use super::word;
use crate::grammar::{Place, Word};

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    word(Place::Unit, "mm", "Millimetres", "length 64mm"),
    word(Place::Unit, "in", "Inches", "drill 7/16in to 30"),
    word(Place::Unit, "g", "Grams", "mass 3.1g"),
    word(Place::Unit, "ml", "Millilitres", "holds 0.8ml"),
    word(Place::Unit, "deg", "Degrees", "countersink 10 angle 82deg"),

    word(Place::Measure, "length", "Overall length of the pen in a state", "want length(capped) <= 145"),
    word(Place::Measure, "mass", "Mass of the pen in a state", "want mass(uncapped) <= 24"),
    word(Place::Measure, "balance", "Distance of the centre of mass from the writing point; capped, from the foremost face", "want balance(uncapped) / length(uncapped) within 0.45..0.55"),
    word(Place::Measure, "turns", "Turns until the joint comes apart: release travel over lead", "want turns within 0.75..2"),
    word(Place::Measure, "travel", "How far the joint moves until its threads part", "want travel <= 5"),
    word(Place::Measure, "overlap", "How much of the two threads is engaged", "want overlap >= 3"),
    word(Place::Measure, "wall", "Least wall of a part", "want wall(cap) >= 1"),
    word(Place::Measure, "diameter", "Outside diameter of a part at a station", "want diameter(section, 12) within 9.5..11"),
    word(Place::Measure, "clearance", "Least room between two parts in a state", "want clearance(nib-unit, cap, capped) >= 0.3"),
    word(Place::Measure, "distance", "Axial distance between two faces, signed", "want distance(cap.mouth, barrel.shoulder) = 0 +- 0.05"),
    word(Place::Measure, "ink", "Millilitres of ink", "want ink >= 0.8"),
    word(Place::Measure, "min", "The least of several", "let wall = min(a, b)"),
    word(Place::Measure, "max", "The greatest of several", "let wall = max(a, b)"),

    word(Place::Configuration, "capped", "The pen with its cap on", "want length(capped) <= 145"),
    word(Place::Configuration, "uncapped", "The pen with its cap off", "want mass(uncapped) <= 24"),
    word(Place::Configuration, "posted", "The pen with its cap on the tail", "want length(posted) <= 165"),
];
