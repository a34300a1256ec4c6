//! Keeps the revision that lenses are compared with up to date.

use crate::client_messages::ClientMessages;
use crate::server_state::ServerState;
use std::path::PathBuf;
use std::sync::Arc;
use tower_lsp::lsp_types::MessageType;

/// A document was saved: git is asked again, on the side, and where the revision that lenses are
/// compared with has become another the editor is to ask for them again.
pub(crate) async fn saved(server: Arc<ServerState>, outbox: ClientMessages, path: PathBuf) {
    let (pasts, name) = {
        let state = server.state();
        let name = state.workspace.settings().compare_with().to_owned();
        (state.pasts.clone(), name)
    };
    let before = pasts.known(&path, &name);
    pasts.look_again();
    // Of a document without lenses nothing is kept, and nothing is asked.
    let Some(before) = before else { return };
    let asked = tokio::task::spawn_blocking(move || pasts.of(&path, &name).ok());
    let now = asked.await.unwrap_or_default();
    let same = match (&before, &now) {
        (Some(before), Some(now)) => Arc::ptr_eq(before, now),
        (None, None) => true,
        _ => false,
    };
    log(&server, &outbox);
    if !same {
        server.state().refresh.want(true);
        server.wake();
    }
}

/// Tells the log what it has not been told.
pub(crate) fn log(server: &ServerState, outbox: &ClientMessages) {
    let pasts = server.state().pasts.clone();
    for line in pasts.take_unsaid() {
        outbox.log(MessageType::INFO, line);
    }
}
