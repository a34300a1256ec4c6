//! The documents the editor has open: opened, changed, closed.

use crate::client_messages::ClientMessages;
use crate::position::PositionMap;
use crate::queue::Priority;
use crate::server_state::{OpenDocument, ServerState, SessionState, path_of};
use crate::typing::{SyntaxDelay, Typing};
use quillet_syntax::Encoding;
use std::path::Path;
use tower_lsp::lsp_types::{
    DidChangeTextDocumentParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
    TextDocumentContentChangeEvent,
};

/// A document was opened.
pub(crate) fn opened(server: &ServerState, params: DidOpenTextDocumentParams) {
    let document = params.text_document;
    let path = path_of(&document.uri);
    let mut state = server.state();
    let open = OpenDocument {
        url: document.uri,
        version: document.version,
        typing: None,
    };
    state.open.insert(path.clone(), open);
    state.edited = Some(path.clone());
    state.pasts.look_again();
    state.workspace.set(&path, document.text.into());
    state.changed(&path, Priority::Edited);
    drop(state);
    server.wake();
}

/// A document was changed; says what could not be done, where something could not.
pub(crate) fn changed(
    server: &ServerState,
    params: DidChangeTextDocumentParams,
) -> Result<(), String> {
    let path = path_of(&params.text_document.uri);
    let mut state = server.state();
    let (encoding, delay) = (state.encoding, state.syntax_delay);
    let (Some(text), Some(open)) = (state.workspace.text(&path), state.open.get_mut(&path)) else {
        return Err(format!(
            "{} is changed but not open",
            params.text_document.uri
        ));
    };
    open.version = params.text_document.version;
    let edited = edited(&text, params.content_changes, encoding);
    if let Some(line) = edited.last_line {
        open.typing = (delay != SyntaxDelay::NONE).then(|| Typing::on(line, delay));
    }
    state.edited = Some(path.clone());
    state.workspace.set(&path, edited.text.into());
    state.changed(&path, Priority::Edited);
    drop(state);
    server.wake();
    Ok(())
}

/// A document was closed: what lies on the disk counts again.
pub(crate) fn closed(
    server: &ServerState,
    outbox: &ClientMessages,
    params: &DidCloseTextDocumentParams,
) {
    let path = path_of(&params.text_document.uri);
    let mut state = server.state();
    state.open.remove(&path);
    state.workspace.unset(&path);
    state.previewed.remove(&path);
    if state.workspace.holds(&path) {
        state.changed(&path, Priority::Folder);
    } else {
        forget(&mut state, outbox, &path);
    }
    drop(state);
    server.wake();
}

/// A file is gone from what is checked by itself.
pub(crate) fn forget(state: &mut SessionState, outbox: &ClientMessages, path: &Path) {
    state.changed(path, Priority::Folder);
    state.queue.forget(path);
    for file in state.shown.forget(path) {
        outbox.publish(state, &file, false);
    }
}

/// A text that was changed.
struct Edited {
    text: String,
    /// The line at which the last change ends; none where nothing changed.
    last_line: Option<u32>,
}

/// The text after changes applied in sequence.
fn edited(text: &str, changes: Vec<TextDocumentContentChangeEvent>, encoding: Encoding) -> Edited {
    let mut text = text.to_owned();
    let mut last_end = None;
    for change in changes {
        let Some(range) = change.range else {
            last_end = end_of_change(&text, &change.text).or(last_end);
            text = change.text;
            continue;
        };
        let lines = PositionMap::new(text.as_str(), encoding);
        let (start, end) = (lines.clamped(range.start), lines.clamped(range.end));
        text.replace_range(start.min(end)..end.max(start), &change.text);
        last_end = Some(start.min(end) + change.text.len());
    }
    let last_line =
        last_end.map(|end| PositionMap::new(text.as_str(), encoding).position(end).line);
    Edited { text, last_line }
}

/// Where what is new ends in a text that replaces another whole; none where they are the same.
fn end_of_change(old: &str, new: &str) -> Option<usize> {
    if old == new {
        return None;
    }
    let alike = |(one, other): &(char, char)| one == other;
    let before = old.chars().zip(new.chars()).take_while(alike);
    let before: usize = before.map(|(letter, _)| letter.len_utf8()).sum();
    let after = old[before..].chars().rev().zip(new[before..].chars().rev());
    let after: usize = after.take_while(alike).map(|(it, _)| it.len_utf8()).sum();
    Some(new.len() - after)
}
