//! The folders of the workspace: what lies in them, and what changes there.

use crate::client_messages::ClientMessages;
use crate::documents::forget;
use crate::queue::Priority;
use crate::server_state::{ServerState, path_of};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tower_lsp::lsp_types::{
    DidChangeWatchedFilesParams, DidChangeWorkspaceFoldersParams, FileChangeType, InitializeParams,
};

/// The folders the editor has open.
pub(crate) fn of(params: &InitializeParams) -> Vec<PathBuf> {
    let many = params
        .workspace_folders
        .iter()
        .flatten()
        .map(|folder| path_of(&folder.uri));
    let many: Vec<PathBuf> = many.collect();
    #[allow(deprecated, reason = "older editors say nothing else")]
    match (many.is_empty(), &params.root_uri) {
        (true, Some(root)) => vec![path_of(root)],
        _ => many,
    }
}

/// Finds the files of the folders, or where none is open those beside the open documents, and asks for all of them to be checked.
pub(crate) async fn scan(server: Arc<ServerState>, outbox: ClientMessages) {
    let (folders, open, snapshot) = {
        let state = server.state();
        let open: Vec<PathBuf> = state.open.keys().cloned().collect();
        (state.folders.clone(), open, state.workspace.snapshot())
    };
    let delay = server.session.scan_delay;
    let found = tokio::task::spawn_blocking(move || {
        std::thread::sleep(delay);
        match folders.is_empty() {
            true => quillet_ide::files_beside(&snapshot, &open),
            false => quillet_ide::files_in(&folders),
        }
    });
    let found = found.await.unwrap_or_default();
    let mut state = server.state();
    state.scans -= 1;
    let gone: Vec<PathBuf> = state.workspace.members().map(Path::to_path_buf).collect();
    for gone in gone {
        if !found.contains(&gone) && !state.open.contains_key(&gone) {
            forget(&mut state, &outbox, &gone);
        }
    }
    for file in &found {
        if !state.shown.knows(file) && !state.queue.holds(file) {
            let urgency = state.urgency(file);
            state.queue.ask(file, urgency);
        }
    }
    outbox.begin_progress(&mut state, found.len());
    state.workspace.set_members(found);
    drop(state);
    server.checked.notify_waiters();
    server.wake();
}

/// Folders were added or taken away.
pub(crate) fn changed(server: &ServerState, params: DidChangeWorkspaceFoldersParams) {
    let mut state = server.state();
    for gone in params.event.removed {
        let gone = path_of(&gone.uri);
        state.folders.retain(|folder| *folder != gone);
    }
    for new in params.event.added {
        state.folders.push(path_of(&new.uri));
    }
}

/// Files were created, changed or deleted on the disk.
pub(crate) fn watched(
    server: &ServerState,
    outbox: &ClientMessages,
    params: DidChangeWatchedFilesParams,
) {
    let mut state = server.state();
    for change in params.changes {
        let path = path_of(&change.uri);
        state.workspace.stale(&path);
        if state.open.contains_key(&path) {
            // The editor's own text counts; those that read the disk hear of it by its edits.
            continue;
        }
        if change.typ == FileChangeType::DELETED {
            state.workspace.remove_member(&path);
            forget(&mut state, outbox, &path);
        } else if quillet_ide::is_design(&path) {
            state.workspace.add_member(&path);
            state.changed(&path, Priority::Folder);
        }
    }
    drop(state);
    server.wake();
}
