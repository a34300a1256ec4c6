//! Published threads, fits, drills and materials, every row with its source.
//!
//! Sizes live as tables under `data/`, one row a size, so that adding one is a line. Every answer
//! carries its [`Source`]. Nothing here knows a particular pen.

pub mod bought;
pub mod cast;
mod colour;
pub mod drill;
pub mod fit;
mod general;
mod inches;
pub mod material;
pub mod mechanics;
mod source;
mod table;
pub mod thread;
mod units;

pub use colour::Colour;
pub use general::GeneralClass;
pub use source::Source;
pub use units::Units;
