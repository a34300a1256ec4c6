//! A list for each plan of a file.

use super::{SCHEMA_VERSION, rounded};
use crate::mark::MARK;
use serde::Serialize;

/// The lists of a file's plans, as JSON bears them: marked as ours, for they may be written into files.
#[derive(Serialize)]
pub struct Lists<L> {
    generator: &'static str,
    schema_version: u32,
    lists: Vec<L>,
}

impl<L: Serialize> Lists<L> {
    /// Of lists, one a plan.
    pub fn of(lists: impl IntoIterator<Item = L>) -> Self {
        Self {
            generator: MARK,
            schema_version: SCHEMA_VERSION,
            lists: lists.into_iter().collect(),
        }
    }

    /// For programs.
    pub fn json(&self) -> String {
        rounded(self)
    }

    /// For people, each list in the words of `text`, a blank line between two.
    pub fn text(&self, text: impl Fn(&L) -> String) -> String {
        let each: Vec<String> = self.lists.iter().map(text).collect();
        each.join("\n")
    }
}
