//! What comes next in a statement, as it is typed.

use crate::Cursor;
use crate::forms::form;
use quillet_syntax::words::{self, Place};
use quillet_syntax::{Token, TokenKind, expected};

/// How the statement at the cursor is written, and where in it the cursor is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signature {
    /// The whole form: `drill SIZE to DEPTH [at START]`.
    pub form: &'static str,
    /// What the statement is for.
    pub help: &'static str,
    /// The bytes of `form` that hold each phrase, in order.
    pub phrases: Vec<(usize, usize)>,
    /// The phrase at the cursor: an index into `phrases`; none past the last.
    pub active: Option<usize>,
}

/// The form of the statement at the cursor; none before its first word is complete.
pub fn signature(cursor: Cursor<'_>) -> Option<Signature> {
    let tokens = typed(cursor);
    let first = tokens.first()?;
    let place = place(cursor)?;
    let form = form(place, cursor.text(first.span))?;
    if first.span.touches(cursor.offset) {
        return None;
    }
    let phrases = form.phrases();
    let mut active = 0;
    let mut filled = false;
    for token in &tokens[1..] {
        let word = cursor.text(token.span);
        let mut ahead = phrases.iter().enumerate().skip(active);
        match ahead.find(|(_, phrase)| token.kind == TokenKind::Name && phrase.has(word)) {
            Some((at, phrase)) => {
                active = at;
                // `smooth` is all there is to say, `bead` wants its radius.
                filled = !phrase.text.contains(|c: char| c.is_ascii_uppercase());
            }
            None => {
                // The first value after a filled phrase belongs to the next that has no word.
                filled = true;
            }
        }
    }
    let last = tokens.last()?;
    let goes_on = matches!(
        last.kind,
        TokenKind::Plus
            | TokenKind::Minus
            | TokenKind::Star
            | TokenKind::Slash
            | TokenKind::Comma
            | TokenKind::Dot
            | TokenKind::DotDot
            | TokenKind::Equals
            | TokenKind::OpenParen
    );
    if filled && !goes_on && !last.span.touches(cursor.offset) {
        active += 1;
    }
    let help = words::at(place).find(|word| word.text == form.word())?.help;
    let mut from = form.word().len();
    let spans = phrases.iter().map(|phrase| {
        let start = from + form.line[from..].find(phrase.text).unwrap_or(0);
        from = start + phrase.text.len();
        (start, from)
    });
    let spans: Vec<_> = spans.collect();
    let active = (active < spans.len()).then_some(active);
    Some(Signature {
        form: form.line,
        help,
        phrases: spans,
        active,
    })
}

/// The tokens of the statement from its start to the cursor.
fn typed(cursor: Cursor<'_>) -> Vec<Token> {
    let tokens = &cursor.file.parsed.tokens;
    let end = tokens.partition_point(|token| (token.span.start as usize) < cursor.offset);
    let mut line: Vec<Token> = tokens[..end]
        .iter()
        .rev()
        .take_while(|token| {
            !token.kind.is_separator() && !matches!(token.kind, TokenKind::Open | TokenKind::Close)
        })
        .filter(|token| !token.kind.is_trivia())
        .copied()
        .collect();
    line.reverse();
    line
}

/// The kind of statement the cursor is in.
fn place(cursor: Cursor<'_>) -> Option<Place> {
    expected(cursor.file.id, &cursor.file.text, cursor.offset).map(|expected| expected.place)
}
