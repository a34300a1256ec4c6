//! Damaged texts and messages, fed to everything that reads them.
//!
//! Each target is a plain function of bytes that panics where something is wrong; the driver of
//! this crate calls it with inputs drawn from a seed, and `fuzz/` hands the same functions to
//! libFuzzer. What is asked of all of them: no panic, no end that does not come, no memory past
//! a bound, and of each what its own file says.

mod corpus;
mod dice;
mod mutate;
mod target;

pub use corpus::{Corpus, messages, texts};
pub use dice::Dice;
pub use mutate::mutated;
pub use target::{TARGETS, Target, target};
