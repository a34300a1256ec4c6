//! What is found and accepted.

use quillet_syntax::{Finding, Span, ast};

/// A finding the maker accepts, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accepted {
    /// The finding.
    pub finding: Finding,
    /// The maker's reason.
    pub because: ast::Text,
    /// The statement that accepts it.
    pub span: Span,
}
