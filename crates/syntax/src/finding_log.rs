//! Findings of the rule `syntax` as they are collected.

use crate::{Finding, Severity, Span};

/// The most findings that one file is given.
pub(crate) const MOST: usize = 100;

/// The first findings of a text, and how many more there are. Those past the most are counted
/// and not worded, so that a file that is no pen at all costs no more than one that is.
#[derive(Debug, Default)]
pub(crate) struct FindingLog {
    first: Vec<Finding>,
    more: usize,
}

impl FindingLog {
    /// Takes a finding.
    pub(crate) fn push(&mut self, finding: impl FnOnce() -> Finding) {
        match self.is_full() {
            true => self.more += 1,
            false => self.first.push(finding()),
        }
    }

    /// Whether further findings are only counted.
    pub(crate) fn is_full(&self) -> bool {
        self.first.len() >= MOST
    }

    /// The findings in the text's order, and where there are too many one that says how many.
    pub(crate) fn into_findings(parts: impl IntoIterator<Item = FindingLog>) -> Vec<Finding> {
        let mut all = FindingLog::default();
        for mut part in parts {
            all.first.append(&mut part.first);
            all.more += part.more;
        }
        let FindingLog { mut first, more } = all;
        first.sort_by_key(|finding| finding.span);
        let more = more + first.len().saturating_sub(MOST);
        let from = first.get(MOST).or(first.last()).map(|finding| finding.span);
        first.truncate(MOST);
        if let Some(span) = from.filter(|_| more > 0) {
            let message = format!("{more} more places cannot be read");
            first.push(error(span, message).hint("put those before it right first"));
        }
        first
    }
}

/// An error of the rule `syntax`.
pub(crate) fn error(span: Span, message: impl Into<crate::SizedText>) -> Finding {
    Finding::new("syntax", Severity::Error, span, message)
}
