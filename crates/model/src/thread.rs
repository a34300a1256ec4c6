//! Threads as a design names them.

use quillet_standards::thread::ThreadForm;
use quillet_syntax::{Span, ast};

/// A thread, named by an item or written in place.
#[derive(Clone, Debug)]
pub struct ThreadDef {
    /// The item's name; none where it is written in place.
    pub name: Option<ast::Name>,
    /// The item, or the form written in place.
    pub span: Span,
    /// The designation as written.
    pub designation: ast::Text,
    /// The thread.
    pub thread: ThreadForm,
}

impl ThreadDef {
    /// What a maker calls it: `the closing thread`, or its designation.
    pub fn called(&self) -> String {
        match &self.name {
            Some(name) => format!("the {} thread", name.text),
            None => format!("the {} thread", self.thread),
        }
    }
}
