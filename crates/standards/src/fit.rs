//! Limits and fits: ISO 286 up to 50 mm, and what a drilled hole comes out as.

mod drilled;
mod pair;
mod zone;

pub use drilled::{DrilledHole, drilled_hole};
pub use pair::{Fit, FitKind, FitLimits, SizedFit};
pub use zone::{FitError, Zone, ZoneLimits};
