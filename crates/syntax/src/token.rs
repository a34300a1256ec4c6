//! Text to tokens. Every byte belongs to one; joined in order they are the source.

use crate::conflict::conflicts;
use crate::{FileId, Span};
use logos::Logos;

/// A token and where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: TokenKind,
    /// Where it stands.
    pub span: Span,
}

/// The kinds of token. Where several could begin at one place, the longest is taken.
#[derive(Logos, Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[logos(utf8 = true)]
pub enum TokenKind {
    /// Blanks and tabs.
    #[regex(r"[ \t]+")]
    Blank,
    /// The end of a line: `\n`, `\r\n` or a lone `\r`.
    #[regex(r"\n|\r\n?")]
    Newline,
    /// `;`
    #[token(";")]
    Semicolon,
    /// `--` to the end of the line, which is not part of it.
    #[regex(r"--[^\r\n]*", allow_greedy = true)]
    Comment,
    /// A byte-order mark, at the very start of a file only.
    Bom,
    /// What an unfinished merge left, from marker to marker.
    Conflict,
    /// A name or a word of the language, told apart by their place.
    #[regex(r"[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*", priority = 20)]
    Name,
    /// A number with the unit that touches it: `12`, `0.25in`, `7/16in`, `1-5/8`.
    #[regex(
        r"([0-9]+(\.[0-9]+)?(mm|in|g|ml|deg|N)?)|([0-9]+/[0-9]+in)|([0-9]+-[0-9]+/[0-9]+(in)?)",
        priority = 20
    )]
    Quantity,
    /// A number drill, `#7`.
    #[regex(r"#[0-9]+")]
    Gauge,
    /// A single capital, a letter drill's.
    #[regex(r"[A-Z]", priority = 20)]
    Capital,
    /// A thread's designation: `M13x0.8-6g`, `7/16-28UNEF`, `#10-32UNF-2A-LH`.
    #[regex(
        r"M[0-9]+(\.[0-9]+)?(x[0-9]+(\.[0-9]+)?|xPh[0-9]+(\.[0-9]+)?P[0-9]+(\.[0-9]+)?)?(-[0-9][A-Za-z]+([0-9][A-Za-z]+)?(/[0-9][A-Za-z]+([0-9][A-Za-z]+)?)?)?(-LH)?",
        priority = 30
    )]
    #[regex(
        r"(([0-9]+-)?[0-9]+/[0-9]+|[0-9]+|#[0-9]+)-[0-9]+UN(C|F|EF|S)?(-[0-9][A-Za-z]+(/[0-9][A-Za-z]+)?)?(-LH)?",
        priority = 30
    )]
    // Without a series it is a difference, unless a class or a hand comes behind it.
    #[regex(
        r"(([0-9]+-)?[0-9]+/[0-9]+|[0-9]+|#[0-9]+)-[0-9]+(-[0-9][AB](/[0-9][AB])?(-LH)?|-LH)",
        priority = 30
    )]
    Thread,
    /// A fit, `H7/g6`.
    #[regex(r"[A-Z][A-Z]?[0-9]+/[a-z][a-z]?[0-9]+", priority = 40)]
    Fit,
    /// A string, quotes included.
    #[regex(r#""[^"\r\n]*""#)]
    String,
    /// `{`
    #[token("{")]
    Open,
    /// `}`
    #[token("}")]
    Close,
    /// `(`
    #[token("(")]
    OpenParen,
    /// `)`
    #[token(")")]
    CloseParen,
    /// `,`
    #[token(",")]
    Comma,
    /// `:`
    #[token(":")]
    Colon,
    /// `.`
    #[token(".")]
    Dot,
    /// `..`
    #[token("..")]
    DotDot,
    /// `=`
    #[token("=")]
    Equals,
    /// `+-`
    #[token("+-")]
    PlusMinus,
    /// `+`
    #[token("+")]
    Plus,
    /// `-`
    #[token("-")]
    Minus,
    /// `*`
    #[token("*")]
    Star,
    /// `/`
    #[token("/")]
    Slash,
    /// `<`
    #[token("<")]
    Less,
    /// `<=`
    #[token("<=")]
    AtMost,
    /// `>`
    #[token(">")]
    More,
    /// `>=`
    #[token(">=")]
    AtLeast,
    /// A number that runs into letters: `12mn`, `3x`.
    #[regex(r"[0-9]+(\.[0-9]+)?[A-Za-z_][A-Za-z0-9_]*", priority = 5)]
    BadNumber,
    /// A word that is no name: `Heron`, `nib_unit`; a thread that is none, as `M10X0.75`.
    #[regex(r"[A-Za-z_][A-Za-z0-9_]*(-[A-Za-z0-9_]+)*", priority = 5)]
    #[regex(
        r"M[0-9]+(\.[0-9]+)?[X×][0-9]+(\.[0-9]+)?(-[A-Za-z0-9_]+)*",
        priority = 6
    )]
    BadName,
    /// A string whose closing quote is missing, or one in a word processor's quotes.
    #[regex(r#""[^"\r\n]*"#)]
    #[regex(r#"[“„][^"“”\r\n]*[”“]?"#)]
    BadString,
    /// A character that means nothing here.
    Unknown,
}

impl TokenKind {
    /// Whether it says nothing to the parser: blanks, comments, a byte-order mark, both versions of
    /// a merge.
    pub fn is_trivia(self) -> bool {
        matches!(
            self,
            TokenKind::Blank | TokenKind::Comment | TokenKind::Bom | TokenKind::Conflict
        )
    }

    /// Whether it ends a statement.
    pub fn is_separator(self) -> bool {
        matches!(self, TokenKind::Newline | TokenKind::Semicolon)
    }

    /// Whether it is damaged in itself, wherever it stands.
    pub fn is_damaged(self) -> bool {
        matches!(
            self,
            TokenKind::BadNumber | TokenKind::BadName | TokenKind::BadString | TokenKind::Unknown
        )
    }
}

/// The byte-order mark that some editors put before the text.
pub(crate) const BOM: &str = "\u{feff}";

/// Splits a text into its tokens. Offsets past 4 GB are not told apart.
pub fn lex(file: FileId, text: &str) -> Vec<Token> {
    let skip = if text.starts_with(BOM) { BOM.len() } else { 0 };
    // A token has a letter at least; what is never filled is no memory, and to grow costs a copy.
    let mut tokens = Vec::with_capacity(text.len() + 1);
    if skip > 0 {
        tokens.push(Token {
            kind: TokenKind::Bom,
            span: Span::new(file, 0, skip),
        });
    }
    let mut from = skip;
    for conflict in conflicts(text) {
        let region = conflict.region;
        lex_plain(file, &text[..region.start], from, &mut tokens);
        tokens.push(Token {
            kind: TokenKind::Conflict,
            span: Span::new(file, region.start, region.end),
        });
        from = region.end;
    }
    lex_plain(file, text, from, &mut tokens);
    tokens
}

/// The tokens of a text without a merge's markers, from an offset on.
fn lex_plain(file: FileId, text: &str, skip: usize, tokens: &mut Vec<Token>) {
    for (kind, range) in TokenKind::lexer(&text[skip..]).spanned() {
        let (start, end) = (skip + range.start, skip + range.end);
        let mut push = |kind, from: usize, to: usize| {
            if from < to {
                let span = Span::new(file, from, to);
                tokens.push(Token { kind, span });
            }
        };
        let kind = kind.unwrap_or(TokenKind::Unknown);
        match word_before_brace(kind, &text[start..end]) {
            Some((word, blank)) => {
                push(kind, start, start + word);
                push(TokenKind::Blank, start + word, start + word + blank);
                push(TokenKind::Open, start + word + blank, end);
            }
            None => push(kind, start, end),
        }
    }
}

/// A string that is never closed does not draw in the brace at the end of its line: how long it is
/// then, and the blanks before the brace.
fn word_before_brace(kind: TokenKind, text: &str) -> Option<(usize, usize)> {
    let before = text
        .strip_suffix('{')
        .filter(|_| kind == TokenKind::BadString)?;
    let word = before.trim_end_matches([' ', '\t']).len();
    Some((word, before.len() - word))
}

#[cfg(test)]
mod tests;
