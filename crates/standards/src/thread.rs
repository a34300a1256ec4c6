//! Threads of 60°: ISO metric (ISO 68-1, 261, 724, 965-1) and unified inch (ASME B1.1).

mod class;
mod designation;
mod designation_error;
mod engagement;
mod form;
mod graded;
mod inch_size;
mod iso965;
mod limits;
mod percent;
mod preferred;
mod profile;
mod reader;
mod relief;
mod series;
mod strength;
mod tap_drill;
mod tap_lead;
mod tenon;
mod unified;
mod wires;

pub use class::{ClassError, ThreadClass, ThreadSide};
pub use designation_error::{DesignationError, DesignationFault};
pub use engagement::{EngagementGroup, NormalEngagement};
pub use form::{Hand, InchSeries, ThreadForm, ThreadSize};
pub use limits::{ExternalLimits, InternalLimits, LimitsError, LimitsFrom};
pub use percent::{PercentOfThread, PercentPractice, PercentSuitability, percent_practice};
pub use profile::Clip;
pub use relief::{Relief, ShortNormal, Undercut};
pub use series::{KnownThread, Standing, known};
pub use strength::ShearAreas;
pub use tap_drill::{TapDrill, TapDrillChoice, TapDrillRule};
pub use tap_lead::{TapLead, tap_leads};
pub use tenon::Tenon;
pub use wires::OverWires;
