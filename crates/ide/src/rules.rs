//! The rules as an editor shows them.

/// A rule's page, Markdown, with its examples; none where there is no such rule.
pub fn page(rule: &str) -> Option<&'static str> {
    quillet_check::rule(rule).map(|rule| rule.page)
}
