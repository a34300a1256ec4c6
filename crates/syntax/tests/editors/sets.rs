//! The words by what an editor does with them, each once, in the order of the alphabet.

use quillet_syntax::grammar::{Place, WORDS, Word, statements};
use std::collections::BTreeSet;

type Set = BTreeSet<&'static str>;

/// Words that begin a statement: `part`, `drill`, `screw`.
pub(crate) fn heads() -> Set {
    of_class(Class::Head)
}

/// Words that begin a statement which gives something a name: `part cap …`.
pub(crate) fn definers() -> Set {
    at(Place::Item)
        .filter(|word| !["use", "limit"].contains(word))
        .collect()
}

/// Words that stand as such in the compiled grammar; a statement of one word is a node of its name there.
pub(crate) fn keywords() -> Set {
    let mut words = &(&heads() | &tails()) | &shapes();
    for alone in statements().filter(|it| it.rule == it.word()) {
        words.remove(alone.word());
    }
    words
}

/// Words that begin a joint: `screw`.
pub(crate) fn joints() -> Set {
    at(Place::Pen)
        .filter(|word| !of_place(Place::Part).contains(word))
        .collect()
}

/// Words within a statement: `for`, `dia`, `onto`.
pub(crate) fn tails() -> Set {
    &of_class(Class::Tail) - &shapes()
}

/// Words within a statement after which a value or a name stands: `dia grip`, `as shoulder`.
pub(crate) fn leading() -> Set {
    &(&tails() - &bare()) | &Set::from(["bead", "cove"])
}

/// How a surface comes to a station.
pub(crate) fn shapes() -> Set {
    let shapes = Set::from(["bead", "cove", "dome", "smooth"]);
    assert!(shapes.is_subset(&of_place(Place::StationTail)));
    shapes
}

/// What touches a number.
pub(crate) fn units() -> Set {
    of_class(Class::Unit)
}

/// Measures of a pen and functions of sums.
pub(crate) fn measures() -> Set {
    of_class(Class::Measure)
}

/// The states of a pen.
pub(crate) fn configurations() -> Set {
    of_class(Class::Configuration)
}

/// Words with nothing after them that belongs to them.
fn bare() -> Set {
    let bare = Set::from([
        "inches",
        "inside",
        "matched",
        "outside",
        "screwcutting",
        "sharp",
        "through",
        "turning",
        "volume",
        "weight",
    ]);
    assert!(bare.is_subset(&of_class(Class::Tail)));
    bare
}

#[derive(PartialEq)]
enum Class {
    Head,
    Tail,
    Unit,
    Measure,
    Configuration,
}

fn class(word: &Word) -> Class {
    use Place::*;
    match word.place {
        File if word.text == "dimensions" => Class::Head,
        Item | Material | Part | Station | Cut | Side | Pen | JointLine | Bench | Shelf | Made => {
            Class::Head
        }
        File | Header | MaterialTail | Form | Stock | PartTail | StationTail | Reach | CutTail
        | SideTail | Size | Joint | JointTail | SeatTail | Want | Accept | BenchTail
        | ShelfTail | MadeTail => Class::Tail,
        Unit => Class::Unit,
        Measure => Class::Measure,
        Configuration => Class::Configuration,
    }
}

fn of_class(wanted: Class) -> Set {
    let words = WORDS.iter().filter(|word| class(word) == wanted);
    words.map(|word| word.text).collect()
}

fn of_place(place: Place) -> Set {
    at(place).collect()
}

fn at(place: Place) -> impl Iterator<Item = &'static str> {
    quillet_syntax::grammar::at(place).map(|word| word.text)
}
