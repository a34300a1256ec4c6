//! The rules as an editor shows them.

/// A rule in short.
pub(crate) struct RuleCard {
    /// Its code.
    pub(crate) code: &'static str,
    /// What it says in a sentence.
    pub(crate) summary: &'static str,
    /// Its page, Markdown.
    pub(crate) page: &'static str,
}

/// Every rule, in the order of the manual.
pub(crate) fn all() -> impl Iterator<Item = RuleCard> {
    std::iter::empty()
}

/// The rule of a code.
pub(crate) fn of(code: &str) -> Option<RuleCard> {
    all().find(|rule| rule.code == code)
}

/// The address of a rule's page, where there is one.
pub fn rule_page(_rule: &str) -> Option<String> {
    None
}
