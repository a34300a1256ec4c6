//! What inputs are fed to, one target a file.

mod check;
mod edits;
mod formats;
mod parse;
mod server;

use crate::Corpus;

/// Something that reads.
#[derive(Clone, Copy, Debug)]
pub struct Target {
    /// What it is called.
    pub name: &'static str,
    /// Reads; panics where something is wrong.
    pub run: fn(&[u8]),
    /// What its inputs are made from.
    pub corpus: fn() -> Corpus,
}

/// All targets, the quickest first.
pub const TARGETS: &[Target] = &[
    Target {
        name: "parse",
        run: parse::run,
        corpus: crate::texts,
    },
    Target {
        name: "check",
        run: check::run,
        corpus: crate::texts,
    },
    Target {
        name: "edits",
        run: edits::run,
        corpus: crate::texts,
    },
    Target {
        name: "formats",
        run: formats::run,
        corpus: crate::texts,
    },
    Target {
        name: "server",
        run: server::run,
        corpus: crate::messages,
    },
];

/// The target of a name.
pub fn target(name: &str) -> Option<Target> {
    TARGETS.iter().copied().find(|target| target.name == name)
}

/// The text that bytes are read as.
fn text_of(bytes: &[u8]) -> std::borrow::Cow<'_, str> {
    String::from_utf8_lossy(bytes)
}

/// Panics where a number that is none is told.
#[track_caller]
fn no_nan(reported: &str) {
    let none = none_in(reported);
    assert!(none.is_none(), "{none:?} is told: {reported:.2000}");
}

/// The first word of a text that is what a number that is none is printed as.
fn none_in(text: &str) -> Option<&str> {
    let mut words = text.split(|letter: char| !letter.is_alphabetic());
    words.find(|word| matches!(*word, "NaN" | "nan" | "inf" | "Infinity" | "infinity"))
}
