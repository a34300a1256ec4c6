//! A file from its text to what is found and how it is made: loaded, resolved, checked, planned.
//!
//! An [`Analysis`] is one file with all it uses; what is found, what of that the maker accepts, and
//! the cures that hold are worked out when first asked for, once, and can be called off. A [`Cache`]
//! keeps the analyses of files that are asked about again and again. [`Planned`] is how a pen, or
//! parts that are in none, are made at their bench.
//!
//! Files come through a [`Source`](quillet_model::Source). Nothing here reads a disk, starts a thread
//! or knows the time, so that all of it works where there is none of these.

mod analysis;
mod buying;
mod cache;
mod choice;
mod planned;
mod recorder;

pub use analysis::Analysis;
pub use buying::{Buying, PlannedPen};
pub use cache::Cache;
pub use choice::{Chosen, parts, pens};
pub use planned::Planned;
