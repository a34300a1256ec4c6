//! Threads of 60°: ISO metric (ISO 68-1, 261, 724, 965-1) and unified inch (ASME B1.1).

mod class;
mod designation;
mod engagement;
mod form;
mod iso965;
mod limits;
mod preferred;
mod profile;
mod series;
mod unified;

pub use class::{ClassError, Side, ThreadClass};
pub use designation::{DesignationError, DesignationFault};
pub use engagement::{EngagementGroup, NormalEngagement};
pub use form::{Hand, InchSeries, ThreadForm, ThreadSize};
pub use limits::{ExternalLimits, InternalLimits, LimitsError, LimitsFrom};
pub use profile::Clip;
pub use series::{KnownThread, Standing, known};
