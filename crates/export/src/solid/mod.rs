//! Parts as solids: STEP with analytic surfaces, STL and 3MF meshes.
//!
//! Solids stand on the `z` axis in millimetres. Threads are plain cylinders of equal volume, so
//! that the volume is the part's.

mod entities;
mod mesh;
mod outline;
#[cfg(test)]
mod samples;
mod step;
mod stl;
mod surface;
mod threemf;

pub use mesh::{Mesh, mesh};
pub use outline::{Body, BrokenThrough};
pub use step::step;
pub use stl::stl;
pub use threemf::threemf;
