//! Text to a tree, whatever the text.
//!
//! The layout splits the text into statements; chumsky reads each one by itself, so
//! that what is amiss in one never hides another. Where something required is missing
//! the rest of its statement is still read, and where a word is misspelt the statement
//! is read as it was meant.

mod damage;
mod expected;
mod message;
mod reader;

pub use crate::grammar::Thing;
pub use expected::{Expected, expected};

use crate::ast;
use crate::conflict::conflicts;
use crate::finding_log::FindingLog;
use crate::layout::{Layout, layout};
use crate::token::{Token, lex};
use crate::{FileId, Finding};

/// A file as read.
#[derive(Debug)]
pub struct Parsed {
    /// The tree; where the text was damaged it holds `Bad` nodes.
    pub tree: ast::File,
    /// Every token; joined they are the text.
    pub tokens: Vec<Token>,
    /// What could not be read, in the text's order. All are errors of the rule `syntax`,
    /// or of `unfinished-merge` alone.
    pub findings: Vec<Finding>,
    /// The statements as they lie in the text, for the formatter.
    pub(crate) layout: Layout,
}

/// Reads a text. Every text yields a tree.
pub fn parse(file: FileId, text: &str) -> Parsed {
    let tokens = lex(file, text);
    let (layout, of_braces, of_end) = layout(text, &tokens);
    let (tree, of_statements) = reader::read(file, text, &tokens, &layout);
    // A text that breaks off in a statement is told of there, not for each block round it.
    let of_end = if layout.breaks_off() {
        FindingLog::default()
    } else {
        of_end
    };
    let of_tokens = damage::damage(text, &tokens);
    let conflicts = conflicts(text);
    Parsed {
        tree,
        findings: match conflicts.is_empty() {
            true => FindingLog::into_findings([of_braces, of_end, of_statements, of_tokens]),
            // Nothing else of it is worth telling before one version is chosen.
            false => conflicts.iter().map(|it| it.finding(file, text)).collect(),
        },
        tokens,
        layout,
    }
}

#[cfg(test)]
mod tests;
#[cfg(test)]
pub(crate) use tests::soup;
