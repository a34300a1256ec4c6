//! Two states of a design side by side.
//!
//! A finding is known again by its [`Place`]: never by its line, its message or its numbers. A
//! [`Baseline`] is what was found before, so that only what is new has to stop anyone.

mod baseline;
mod place;
mod shape;

pub use baseline::Baseline;
pub use place::{Place, places};
