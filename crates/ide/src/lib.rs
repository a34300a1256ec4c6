//! One file a question an editor asks; plain data in, plain data out.
//!
//! A [`Workspace`] holds the texts; a [`Snapshot`] of it never changes, and every
//! question is asked of one. Places are spans of bytes: what an editor counts is no
//! business of this crate, nor is when to work or on which thread.

mod analysis;
mod workspace;

pub use analysis::Analysis;
pub use workspace::{Snapshot, Workspace};

/// The address of a rule's page, where there is one.
pub fn rule_page(_rule: &str) -> Option<String> {
    None
}
