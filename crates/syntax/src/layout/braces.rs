//! Whether the braces of a file can be taken at their word.

use crate::token::{Token, TokenKind};

/// The deepest that blocks lie in one another: a joint's in a pen, and one to spare.
pub(super) const DEEPEST: usize = 3;

/// Whether every brace has its mate, none lies too deep, and no item begins within another.
pub(super) fn are_balanced(text: &str, tokens: &[Token]) -> bool {
    let mut depth = 0_usize;
    let mut starts = true;
    for (index, token) in tokens.iter().enumerate() {
        match token.kind {
            TokenKind::Open => depth += 1,
            TokenKind::Close if depth == 0 => return false,
            TokenKind::Close => depth -= 1,
            TokenKind::Name if starts && depth > 0 && begins_item(text, tokens, index) => {
                return false;
            }
            _ => {}
        }
        if depth > DEEPEST {
            return false;
        }
        starts = match token.kind {
            TokenKind::Open | TokenKind::Close => true,
            kind => kind.is_separator() || starts && kind.is_trivia(),
        };
    }
    depth == 0
}

/// Whether the word at `index`, first in its statement, can begin nothing but an item.
pub(super) fn begins_item(text: &str, tokens: &[Token], index: usize) -> bool {
    let word = &text[tokens[index].span.range()];
    let second = next(tokens, index).filter(|(_, token)| token.kind == TokenKind::Name);
    let Some((second, _)) = second else {
        return false;
    };
    match word {
        "bought" | "pen" | "material" | "made" => true,
        // Of what was made, a part says no ends: its block follows its name.
        "part" => next(tokens, second).is_none_or(|(_, token)| token.kind != TokenKind::Open),
        _ => false,
    }
}

/// Whether the words at `index` are those of a part in what was made: its name, and no ends.
pub(super) fn begins_made_part(text: &str, tokens: &[Token], index: usize) -> bool {
    let second = next(tokens, index).filter(|(_, token)| token.kind == TokenKind::Name);
    let ends = second.and_then(|(second, _)| next(tokens, second));
    let is_part = &text[tokens[index].span.range()] == "part" && second.is_some();
    is_part && ends.is_none_or(|(_, token)| token.kind != TokenKind::Name)
}

/// Whether the word at `index`, at the left edge, begins an item if braces cannot be trusted:
/// many of these words also begin lines of a block.
pub(super) fn may_begin_item(text: &str, tokens: &[Token], index: usize) -> bool {
    let second = next(tokens, index);
    let third = second.and_then(|(index, _)| next(tokens, index));
    let kind = |token: Option<(usize, &Token)>| token.map(|(_, token)| token.kind);
    match &text[tokens[index].span.range()] {
        "part" | "bought" | "pen" | "material" | "made" | "let" | "limit" => {
            kind(second) == Some(TokenKind::Name)
        }
        "use" => kind(second) == Some(TokenKind::String),
        "thread" => kind(third) == Some(TokenKind::Equals),
        "blank" => third.is_some_and(|(_, token)| &text[token.span.range()] == "of"),
        "bench" => matches!(kind(third), Some(TokenKind::Open | TokenKind::String)),
        _ => false,
    }
}

/// The next token of the same line that is no trivia.
fn next(tokens: &[Token], index: usize) -> Option<(usize, &Token)> {
    (index + 1..)
        .zip(&tokens[index + 1..])
        .find(|(_, token)| !token.kind.is_trivia())
        .filter(|(_, token)| !token.kind.is_separator())
}
