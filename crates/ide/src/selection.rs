//! What a selection grows to, step by step.

use crate::Cursor;
use quillet_syntax::{Span, visit};

/// The spans around the cursor, the smallest first, each within the next: the word, the phrase
/// or sum it is part of, its statement, the statements around that, the file.
pub fn selections(cursor: Cursor<'_>) -> Vec<Span> {
    let file = Span::new(cursor.file.id, 0, cursor.file.text.len());
    let nodes = visit::path_at(&cursor.file.parsed.tree, cursor.offset);
    let outward = cursor.token().map(|token| token.span).into_iter();
    let outward = outward
        .chain(nodes.iter().rev().map(|node| node.span()))
        .chain([file]);
    let mut grown: Vec<Span> = Vec::new();
    for span in outward {
        let grows = grown
            .last()
            .is_none_or(|last| span.contains(*last) && span != *last);
        if grows && !span.is_empty() {
            grown.push(span);
        }
    }
    grown
}
