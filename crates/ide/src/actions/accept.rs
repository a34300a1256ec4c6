//! Accepts a finding, with room for the reason.

use super::{Action, ActionKind, as_last_lines, concerns};
use crate::Cursor;
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{Edit, Finding, RuleId, Severity, Span};

/// A line that accepts each finding within a span, in the block it is found in.
pub(super) fn accept(cursor: Cursor<'_>, findings: &[Finding], within: Span) -> Vec<Action> {
    let here = findings
        .iter()
        .enumerate()
        .filter(|(_, it)| concerns(it, within));
    // What cannot be made cannot be accepted, nor an acceptance itself.
    let here = here
        .filter(|(_, it)| it.severity != Severity::Error && it.rule != RuleId::STALE_ACCEPTANCE);
    let actions = here.filter_map(|(index, finding)| {
        Some(Action {
            title: format!("accept {} here, with your reason", finding.rule),
            kind: ActionKind::Fix,
            edits: vec![last_line(cursor, finding)?],
            cures: Some(index),
            preferred: false,
        })
    });
    actions.collect()
}

/// Inserts the acceptance as the last line of the part or pen that holds the finding.
fn last_line(cursor: Cursor<'_>, finding: &Finding) -> Option<Edit> {
    let text = &cursor.file.text;
    let nodes = path_at(&cursor.file.parsed.tree, finding.span.start as usize);
    let block = nodes.iter().find_map(|node| match node {
        Node::Item(item) => match &item.kind {
            quillet_syntax::ast::ItemKind::Part(part) => part.block,
            quillet_syntax::ast::ItemKind::Bought(part) => part.block,
            quillet_syntax::ast::ItemKind::Pen(pen) => pen.block,
            _ => None,
        },
        _ => None,
    })?;
    let written = format!("accept {} because \"why\"", finding.rule);
    as_last_lines(text, block, &[written])
}
