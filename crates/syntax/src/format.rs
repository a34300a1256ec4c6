//! The one canonical form of a text.
//!
//! Two blanks an indent, one statement a line, stations, cuts, joints and comments in columns of a
//! fixed place, comments kept. Only blanks, line ends and semicolons change: a statement that cannot be
//! read stays as it is written, and so does a text whose braces do not match, since what
//! its lines belong to is then a guess. So does one that holds both versions of a merge.

mod columns;
mod edits;
mod hints;
mod rows;

pub use edits::format_edits;

use crate::token::{BOM, Token, TokenKind};
use crate::{FileId, Parsed, parse};

/// The canonical form of a text. What it says stays the same; formatting it again changes
/// nothing. Lines end as most of them did.
pub fn format(text: &str) -> String {
    let parsed = parse(FileId::default(), text);
    format_parsed(text, &parsed)
}

/// The same text without columns: one blank where the canonical form may have several. [`format()`]
/// brings it into its canonical form again.
pub fn loosened(text: &str) -> String {
    let parsed = parse(FileId::default(), text);
    laid_out(text, &parsed, columns::loose_lines)
}

fn format_parsed(text: &str, parsed: &Parsed) -> String {
    laid_out(text, parsed, columns::lines)
}

fn laid_out<'t>(
    text: &'t str,
    parsed: &Parsed,
    lines: impl Fn(Vec<rows::Row<'t>>) -> Vec<String>,
) -> String {
    let merging = |token: &Token| token.kind == TokenKind::Conflict;
    if parsed.tokens.iter().any(merging)
        || !parsed.layout.balanced
        || would_swallow_a_brace(&parsed.tokens)
    {
        return text.to_owned();
    }
    let line_end = dominant_line_end(text, &parsed.tokens);
    let rows = rows::rows(text, parsed);
    let mut out = String::with_capacity(text.len());
    if text.starts_with(BOM) {
        out += BOM;
    }
    let marked = out.len();
    for line in lines(rows) {
        out += &line;
        out += line_end;
    }
    // A stray mark that came to stand first would no longer be one that cannot be read.
    match out[marked..].starts_with(BOM) {
        true => text.to_owned(),
        false => out,
    }
}

/// Whether a brace on a line of its own belongs to a line that ends in an open string: set
/// behind it, it would become part of the string.
fn would_swallow_a_brace(tokens: &[Token]) -> bool {
    let mut before = tokens
        .iter()
        .map(|token| token.kind)
        .filter(|kind| !kind.is_trivia() && !kind.is_separator());
    let mut last = None;
    before.any(|kind| {
        let before = last.replace(kind);
        kind == TokenKind::Open && before == Some(TokenKind::BadString)
    })
}

/// The line end that most lines have; `\n` where none is the more frequent.
fn dominant_line_end(text: &str, tokens: &[Token]) -> &'static str {
    let count = |end: &str| {
        tokens
            .iter()
            .filter(|token| token.kind == TokenKind::Newline && &text[token.span.range()] == end)
            .count()
    };
    // The last of equals is taken.
    ["\r", "\r\n", "\n"]
        .into_iter()
        .max_by_key(|end| count(end))
        .unwrap_or("\n")
}

#[cfg(test)]
mod tests;
