//! Gives the number at the cursor a name.

use super::create::before_item;
use super::{Action, ActionKind, convert, line_end};
use crate::Cursor;
use quillet_syntax::ast::ItemKind;
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{Edit, Span, TokenKind};

/// Moves the number at the cursor into a `let` above its item.
pub(super) fn extract(cursor: Cursor<'_>) -> Option<Action> {
    let (span, _, unit) = convert::literal(cursor)?;
    let tree = &cursor.file.parsed.tree;
    let named = path_at(tree, cursor.offset)
        .iter()
        .any(|node| matches!(node, Node::Let(_)));
    // A bare number that is no length might not mean the same in a `let`.
    if named || (unit.is_none() && !convert::is_length(cursor, span)) {
        return None;
    }
    let name = free_name(cursor, span);
    let (value, line) = (cursor.text(span), line_end(&cursor.file.text));
    let definition = before_item(cursor, span, &format!("let {name} = {value}{line}{line}"));
    Some(Action {
        title: format!("name this number: let {name} = {value}"),
        kind: ActionKind::Extract,
        edits: vec![definition, Edit::new(span, name)],
        cures: None,
        preferred: false,
    })
}

/// A name that is not taken: after the part and what the number is there, as `cap-drill`.
pub(super) fn free_name(cursor: Cursor<'_>, number: Span) -> String {
    let what = what(cursor, number).unwrap_or_else(|| "size".to_owned());
    let taken = &cursor.analysis.design.names.definitions;
    let is_free = |name: &str| taken.iter().all(|it| *it.name != *name);
    let numbered = (2..).map(|number| format!("{what}-{number}"));
    let mut names = std::iter::once(what.clone()).chain(numbered);
    names.find(|name| is_free(name)).unwrap_or_default()
}

/// The part the number stands in and the word before it; none outside of parts.
fn what(cursor: Cursor<'_>, number: Span) -> Option<String> {
    let nodes = path_at(&cursor.file.parsed.tree, number.start as usize);
    let part = nodes.iter().find_map(|node| match node {
        Node::Item(item) => match &item.kind {
            ItemKind::Part(part) | ItemKind::Bought(part) => Some(&part.name.text),
            _ => None,
        },
        _ => None,
    })?;
    let tokens = &cursor.file.parsed.tokens;
    let end = tokens.partition_point(|token| token.span.end <= number.start);
    let before = tokens[..end]
        .iter()
        .rfind(|token| !token.kind.is_trivia())?;
    let word = match cursor.text(before.span) {
        "to" => "depth",
        "for" => "length",
        "at" => "station",
        word if before.kind == TokenKind::Name => word,
        _ => return None,
    };
    Some(format!("{part}-{word}"))
}
