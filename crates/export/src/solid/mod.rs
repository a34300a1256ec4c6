//! Parts as solids: STEP with analytic surfaces, STL and 3MF meshes.
//!
//! Solids stand on the `z` axis in millimetres. Threads are plain cylinders of equal volume, so
//! that the volume is the part's. Bodies bear the colours of what they are made of.

mod entities;
mod form;
mod laid;
mod mesh;
mod outline;
mod pieces;
mod rings;
#[cfg(test)]
mod samples;
mod shell;
mod step;
mod stl;
mod stretches;
mod styles;
mod surface;
mod threemf;

pub use form::SolidForm;
pub use laid::{laid, write};
pub use mesh::{Facets, Mesh, mesh};
pub use outline::{Body, BrokenThrough};
pub use pieces::{bodies, left_out};
pub use rings::rings;
pub use step::step;
pub use stl::stl;
pub use threemf::{NamedMesh, threemf};

/// So much of a file is written at a time, bytes.
const BLOCK: usize = 1 << 18;
