//! What a selection grows to, step by step.

use crate::Cursor;
use crate::statement::enclosing;
use quillet_syntax::{Span, TokenKind};

/// The spans around the cursor, the smallest first, each within the next: the word, what is in
/// the parentheses around it, its statement, the statements around that, the file.
pub fn selections(cursor: Cursor<'_>) -> Vec<Span> {
    let file = Span::new(cursor.file.id, 0, cursor.file.text.len());
    let mut outward: Vec<Span> = cursor.token().map(|token| token.span).into_iter().collect();
    let statements = enclosing(&cursor.file.parsed.tree, cursor.offset);
    if let Some(innermost) = statements.last() {
        outward.extend(parentheses(cursor, *innermost));
    }
    outward.extend(statements.into_iter().rev());
    outward.push(file);
    let mut grown: Vec<Span> = Vec::new();
    for span in outward {
        let grows = grown
            .last()
            .is_none_or(|last| span.contains(*last) && span != *last);
        if grows {
            grown.push(span);
        }
    }
    grown
}

/// The parentheses around the cursor within a statement, the innermost first.
fn parentheses(cursor: Cursor<'_>, statement: Span) -> Vec<Span> {
    let mut open = Vec::new();
    let mut around = Vec::new();
    let inside = |span: Span| statement.contains(span);
    for token in cursor
        .file
        .parsed
        .tokens
        .iter()
        .filter(|token| inside(token.span))
    {
        match token.kind {
            TokenKind::OpenParen => open.push(token.span),
            TokenKind::CloseParen => {
                let pair = open.pop().map(|start: Span| start.to(token.span));
                around.extend(pair.filter(|pair| pair.touches(cursor.offset)));
            }
            _ => {}
        }
    }
    around
}
