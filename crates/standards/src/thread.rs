//! Threads of 60°: ISO metric (ISO 68-1, 261, 724, 965-1) and unified inch (ASME B1.1).

mod class;
mod designation;
mod form;
mod profile;
mod series;

pub use class::{ClassError, Side, ThreadClass};
pub use designation::{DesignationError, DesignationFault};
pub use form::{Hand, InchSeries, ThreadForm, ThreadSize};
pub use profile::Clip;
pub use series::{KnownThread, Standing, known};
