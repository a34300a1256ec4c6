//! Text to a tree, whatever the text.
//!
//! The layout splits the text into statements; chumsky reads each one by itself, so
//! that what is amiss in one never hides another. Where something required is missing
//! the rest of its statement is still read, and where a word is misspelt the statement
//! is read as it was meant.

mod bench;
mod common;
mod damage;
mod expect;
mod expected;
mod expr;
mod input;
mod item;
mod message;
mod part;
mod pen;
mod reader;

pub use expect::Thing;
pub use expected::{Expected, expected};

use crate::ast;
use crate::layout::{Layout, layout};
use crate::token::{Token, lex};
use crate::{FileId, Finding, Severity};

/// A file as read.
#[derive(Debug)]
pub struct Parsed {
    /// The tree; where the text was damaged it holds `Bad` nodes.
    pub tree: ast::File,
    /// Every token; joined they are the text.
    pub tokens: Vec<Token>,
    /// What could not be read, in the text's order. All are errors of the rule `syntax`.
    pub findings: Vec<Finding>,
    /// The statements as they lie in the text, for the formatter.
    pub(crate) layout: Layout,
}

/// The most findings that one file is given.
const MOST_FINDINGS: usize = 100;

/// Reads a text. Every text yields a tree.
pub fn parse(file: FileId, text: &str) -> Parsed {
    let tokens = lex(file, text);
    let mut findings = Vec::new();
    let layout = layout(text, &tokens, &mut findings);
    let tree = reader::read(file, text, &tokens, &layout, &mut findings);
    findings.extend(damage::damage(text, &tokens));
    findings.sort_by_key(|finding| finding.span);
    cap(&mut findings);
    Parsed {
        tree,
        tokens,
        findings,
        layout,
    }
}

/// Keeps the first findings and says how many more there are.
fn cap(findings: &mut Vec<Finding>) {
    let more = findings.len().saturating_sub(MOST_FINDINGS);
    if more == 0 {
        return;
    }
    let span = findings[MOST_FINDINGS].span;
    findings.truncate(MOST_FINDINGS);
    let message = format!("{more} more places from here on cannot be read");
    findings.push(
        Finding::new("syntax", Severity::Error, span, message).hint("put those above right first"),
    );
}

#[cfg(test)]
mod tests;
#[cfg(test)]
pub(crate) use tests::soup;
