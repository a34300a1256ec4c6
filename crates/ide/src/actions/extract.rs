//! Gives the number at the cursor a name.

use super::create::before_item;
use super::{Action, ActionKind, convert, line_end};
use crate::Cursor;
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{Edit, Span};

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
    let name = free_name(cursor);
    let (value, line) = (cursor.text(span), line_end(&cursor.file.text));
    let definition = before_item(cursor, span, &format!("let {name} = {value}{line}{line}"));
    Some(Action {
        title: format!("name this number: let {name} = {value}"),
        kind: ActionKind::Extract,
        edits: vec![
            definition,
            Edit {
                span: Span { ..span },
                text: name,
            },
        ],
        cures: None,
        preferred: false,
    })
}

fn free_name(cursor: Cursor<'_>) -> String {
    let taken = &cursor.analysis.design.names.definitions;
    let is_free = |name: &str| taken.iter().all(|it| *it.name != *name);
    let numbered = (2..).map(|number| format!("size-{number}"));
    let mut names = std::iter::once("size".to_owned()).chain(numbered);
    names.find(|name| is_free(name)).unwrap_or_default()
}
