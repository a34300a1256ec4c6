//! Materials that pens are turned from: density, speeds and feeds, least walls, cautions.

mod cutting;
mod family;
mod kind;
mod walls;

pub use cutting::{Cutting, Operation, Range, cuttings, feed_for_drill, spindle_speed};
pub use family::Family;
pub use kind::{Density, Material, akin, all, glue, ink, named};
pub use walls::{LeastWalls, WarnError, caution, least_walls};
