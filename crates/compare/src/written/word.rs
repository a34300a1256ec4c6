//! A word of a statement.

use quillet_syntax::{Span, TokenKind};

/// A token of a statement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Word {
    pub(crate) text: String,
    pub(crate) kind: TokenKind,
    /// A blank stands before it.
    pub(crate) apart: bool,
    /// Where it stands.
    pub(crate) span: Span,
}
