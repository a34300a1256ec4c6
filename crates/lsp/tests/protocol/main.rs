//! The real server through an in-memory pipe.
#![allow(clippy::unwrap_used, reason = "tests may")]

mod compare;
mod dice;
mod editor;
mod edits;
mod findings;
mod late;
mod lifetime;
mod newer;
mod offers;
mod order;
mod positions;
mod rough;
mod service;
mod soak;
mod typing;
mod written;
