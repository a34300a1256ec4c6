//! Thresholds that a file, pen, joint, part or bench sets for a rule.

use crate::Quantity;
use quillet_syntax::{Span, ast};

/// One `limit rule = sum`.
#[derive(Clone, Debug)]
pub struct LimitLine {
    /// The rule.
    pub rule: ast::Name,
    /// The threshold.
    pub value: Quantity,
    /// The statement.
    pub span: Span,
}

/// The `limit`s of one block.
#[derive(Clone, Debug, Default)]
pub struct Limits(pub Vec<LimitLine>);

impl Limits {
    /// The threshold for a rule, where this block sets one.
    pub fn get(&self, rule: &str) -> Option<&LimitLine> {
        self.0.iter().rev().find(|line| &*line.rule.text == rule)
    }

    /// The threshold in the nearest of several blocks, nearest first.
    pub fn nearest<'a>(
        rule: &str,
        blocks: impl IntoIterator<Item = &'a Limits>,
    ) -> Option<&'a LimitLine> {
        let mut blocks = blocks.into_iter();
        blocks.find_map(|block| block.get(rule))
    }
}

/// `accept rule [at a..b] because "reason"`, resolved.
#[derive(Clone, Debug)]
pub struct Acceptance {
    /// The rule accepted.
    pub rule: ast::Name,
    /// The stations between which it is accepted, along the part, where said.
    pub at: Option<(quillet_geometry::Length, quillet_geometry::Length)>,
    /// The maker's reason.
    pub because: ast::Text,
    /// The statement.
    pub span: Span,
    /// The block it stands in: it covers findings whose primary place lies there.
    pub scope: Span,
}
