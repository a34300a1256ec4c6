//! The files of a revision, or of git's index, by the user's own `git`.
//!
//! A [`Repository`] is where a folder lies; its [`Revision`]s are [`Source`](quillet_model::Source)s,
//! read by three processes in all: one that names the tree, one that lists it, one that gives its
//! files as they are asked for. Nothing goes through a shell, no path is ever quoted, no history is
//! written, and what takes longer than [`PATIENCE`] is given up.

mod blobs;
mod error;
mod git;
mod listing;
mod repository;
mod revision;
mod settings;
mod top;

pub use error::{HistoryError, PATIENCE};
pub use listing::{Entry, EntryKind};
pub use repository::{INDEX, Repository};
pub use revision::Revision;
pub use settings::merged;
pub use top::{Top, slashed};
