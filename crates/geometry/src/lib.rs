//! Lengths, profiles and solids of revolution in the meridian plane.

mod angle;
mod decimal;
mod length;
mod limits;

pub use angle::Angle;
pub use length::{InchFraction, Length};
pub use limits::Limits;
