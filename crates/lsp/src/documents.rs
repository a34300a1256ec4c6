//! The documents the editor has open: opened, changed, closed.

use crate::desk::{Desk, OpenDocument, State, path_of};
use crate::outbox::Outbox;
use crate::position::Lines;
use crate::queue::Urgency;
use quillet_syntax::Encoding;
use std::path::Path;
use tower_lsp::lsp_types::{
    DidChangeTextDocumentParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
    TextDocumentContentChangeEvent,
};

/// A document was opened.
pub(crate) fn opened(desk: &Desk, params: DidOpenTextDocumentParams) {
    let document = params.text_document;
    let path = path_of(&document.uri);
    let mut state = desk.state();
    let open = OpenDocument {
        url: document.uri,
        version: document.version,
    };
    state.open.insert(path.clone(), open);
    state.workspace.set(&path, document.text.into());
    state.changed(&path, Urgency::Edited);
    drop(state);
    desk.work.notify_one();
}

/// A document was changed; says what could not be done, where something could not.
pub(crate) fn changed(desk: &Desk, params: DidChangeTextDocumentParams) -> Result<(), String> {
    let path = path_of(&params.text_document.uri);
    let mut state = desk.state();
    let encoding = state.encoding;
    let (Some(text), Some(open)) = (state.workspace.text(&path), state.open.get_mut(&path)) else {
        return Err(format!(
            "{} is changed but not open",
            params.text_document.uri
        ));
    };
    open.version = params.text_document.version;
    let (text, result) = edited(&text, params.content_changes, encoding);
    state.workspace.set(&path, text.into());
    state.changed(&path, Urgency::Edited);
    drop(state);
    desk.work.notify_one();
    result
}

/// A document was closed: what lies on the disk counts again.
pub(crate) fn closed(desk: &Desk, outbox: &Outbox, params: &DidCloseTextDocumentParams) {
    let path = path_of(&params.text_document.uri);
    let mut state = desk.state();
    state.open.remove(&path);
    state.workspace.unset(&path);
    state.previewed.remove(&path);
    if state.workspace.holds(&path) {
        state.changed(&path, Urgency::Folder);
    } else {
        forget(&mut state, outbox, &path);
    }
    drop(state);
    desk.work.notify_one();
}

/// A file is gone from what is checked by itself.
pub(crate) fn forget(state: &mut State, outbox: &Outbox, path: &Path) {
    state.changed(path, Urgency::Folder);
    state.queue.forget(path);
    for file in state.shown.forget(path) {
        outbox.publish(state, &file, false);
    }
}

/// The text after changes applied in sequence; the first that points outside ends them.
fn edited(
    text: &str,
    changes: Vec<TextDocumentContentChangeEvent>,
    encoding: Encoding,
) -> (String, Result<(), String>) {
    let mut text = text.to_owned();
    for change in changes {
        let Some(range) = change.range else {
            text = change.text;
            continue;
        };
        let lines = Lines::new(text.as_str(), encoding);
        let (Some(start), Some(end)) = (lines.offset(range.start), lines.offset(range.end)) else {
            let count = lines.count();
            let line = range.end.line;
            return (
                text,
                Err(format!(
                    "a change in line {line} of a text of {count} lines"
                )),
            );
        };
        text.replace_range(start.min(end)..end.max(start), &change.text);
    }
    (text, Ok(()))
}
