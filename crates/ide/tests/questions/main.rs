//! Questions that an editor asks, put to small texts.
#![allow(clippy::unwrap_used, reason = "tests may")]

mod actions;
mod asked;
mod compiled;
mod completion;
mod cures;
mod hints;
mod hover;
mod names;
mod next_line;
mod next_word;
mod snippets;
mod typing;
mod units;
