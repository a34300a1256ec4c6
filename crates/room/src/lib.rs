//! How far a number of a design can move, and what stops it.
//!
//! A [`Probe`] is a design that is read again with some of its numbers written otherwise, and checked:
//! it tells what is found then that was not there before. On it stand [`Room`], how far one number can
//! move; [`vary`](vary::vary), what is found and measured at each of a row of values; and
//! [`aim`](aim::aim), at which value a measure comes to what is wanted. [`spread`] makes the pen many times
//! by the maker's own hand: how many pass. None of them edits the design.
//!
//! Nothing here reads files, starts a thread of execution or prints.

pub mod aim;
mod grain;
mod ladder;
mod linked;
mod measures;
mod nearest;
mod number;
mod numbers;
mod probe;
mod room;
mod scan;
pub mod spread;
pub mod vary;

pub use grain::Grain;
pub use linked::with as linked;
pub use measures::{Measures, Values};
pub use nearest::nearest;
pub use number::Number;
pub use numbers::{NotFound, Numbers};
pub use probe::{NewFinding, Probe, Setting};
pub use room::{Passing, Room};
