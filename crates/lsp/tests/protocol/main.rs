//! The real server through an in-memory pipe.
#![allow(clippy::unwrap_used, reason = "tests may")]
#![allow(dead_code, reason = "the editor can more than the tests ask of it yet")]

mod dice;
mod editor;
mod findings;
mod lifetime;
mod order;
mod positions;
mod soak;
