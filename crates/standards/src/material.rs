//! Materials that pens are turned from.

mod family;

pub use family::Family;
