//! Formatting as edits, so that an editor keeps its cursor and can format a stretch.

use super::format_parsed;
use crate::token::{Token, TokenKind, lex};
use crate::{Edit, FileId, Span, parse};
use std::ops::Range;

/// The least edits that bring a text into its canonical form, in order: each replaces what
/// stands between two tokens. An editor that formats a stretch takes those that lie in it.
pub fn format_edits(file: FileId, text: &str) -> Vec<Edit> {
    let parsed = parse(file, text);
    let formatted = format_parsed(text, &parsed);
    let before = gaps(text, &parsed.tokens);
    let after = gaps(&formatted, &lex(file, &formatted));
    debug_assert_eq!(before.len(), after.len(), "formatting keeps every token");
    before
        .into_iter()
        .zip(after)
        .filter(|(before, after)| text[before.clone()] != formatted[after.clone()])
        .map(|(before, after)| {
            Edit::new(Span::new(file, before.start, before.end), &formatted[after])
        })
        .collect()
}

/// What stands before, between and after the tokens that formatting keeps.
fn gaps(text: &str, tokens: &[Token]) -> Vec<Range<usize>> {
    let mut gaps = Vec::with_capacity(tokens.len() / 2);
    let mut end = 0;
    for token in tokens {
        let range = token.span.range();
        match token.kind {
            TokenKind::Blank | TokenKind::Newline | TokenKind::Semicolon => continue,
            kind => {
                gaps.push(end..range.start);
                end = range.end;
                if kind == TokenKind::Comment {
                    // Blanks at the end of a comment go.
                    end = range.start + text[range].trim_end().len();
                }
            }
        }
    }
    gaps.push(end..text.len());
    gaps
}
