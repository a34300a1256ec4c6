//! What is shown of the thing at the cursor.

mod about;
mod thread;

use crate::completion::About;
use crate::sheet::Sheet;
use crate::{Analysis, Cursor, Snapshot};
use quillet_syntax::Span;

pub(crate) use about::about;

/// What is shown at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// What it is about.
    pub span: Span,
    /// Markdown.
    pub text: String,
}

/// What is shown of the thing at the cursor.
pub fn hover(snapshot: &Snapshot, cursor: Cursor<'_>) -> Option<Hover> {
    let token = cursor.token()?;
    let mut sheet = Sheet::new(snapshot.settings().units);
    if let Some(index) = cursor.definition() {
        about::definition(&mut sheet, cursor.analysis, index);
    }
    (!sheet.is_empty()).then(|| Hover {
        span: token.span,
        text: sheet.finish(),
    })
}
