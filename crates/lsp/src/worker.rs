//! A worker: takes the most urgent file, checks it off the reading task, tells the editor.

use crate::client_messages::ClientMessages;
use crate::convert::diagnostic;
use crate::diagnostic_store::Checked;
use crate::queue::Priority;
use crate::server_state::{RequestContext, ServerState, SessionState};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Works until aborted.
pub(crate) async fn run(server: Arc<ServerState>, outbox: ClientMessages) {
    loop {
        let Some((root, asked)) = next(&server) else {
            server.work.notified().await;
            continue;
        };
        // Another worker may take what is left.
        server.work.notify_one();
        let delay = server.session.analysis_delay;
        let path = root.clone();
        let job = tokio::task::spawn_blocking(move || {
            std::thread::sleep(delay);
            check(&path, &asked)
        });
        // A check that panicked shows nothing and is tried again at the next edit.
        let checked = job.await.unwrap_or_else(|_| Some(Checked::default()));
        finish(&server, &outbox, &root, checked);
    }
}

fn next(server: &ServerState) -> Option<(PathBuf, RequestContext)> {
    let mut state = server.state();
    let (root, cancel) = state.queue.take()?;
    Some((root, state.asked(cancel)))
}

/// None where it was called off; of a file that is gone nothing is found, of one that is refused that.
fn check(root: &Path, asked: &RequestContext) -> Option<Checked> {
    let off = || asked.cancel.is_off();
    let checked = match asked.snapshot.analysis(root, &off) {
        Some(analysis) => diagnostic::checked(&analysis, asked)?,
        None => diagnostic::unread(root, asked),
    };
    (!off()).then_some(checked)
}

fn finish(server: &ServerState, outbox: &ClientMessages, root: &Path, checked: Option<Checked>) {
    let mut state = server.state();
    state.queue.done(root);
    let touched = match checked {
        Some(checked) if state.is_current(&checked) => state.shown.record(root, checked),
        Some(_) => {
            // A file it read has changed meanwhile; whoever changed it could not know.
            let urgency = state.urgency(root);
            state.queue.ask(root, urgency);
            BTreeSet::new()
        }
        None => BTreeSet::new(),
    };
    let fresh = !touched.is_empty();
    for file in touched {
        outbox.publish(&mut state, &file, file == root);
    }
    if fresh && state.previewed.contains(root) {
        let version = state.open.get(root).map(|open| open.version);
        if let Some(url) = state.url(root) {
            outbox.preview_changed(url, version);
        }
    }
    // Its hints, lenses and colours are of what it uses, which was edited.
    let is_seen = state.open.contains_key(root) && state.edited.as_deref() != Some(root);
    state.refresh.want(fresh && is_seen);
    outbox.report_progress(&mut state);
    drop(state);
    server.checked.notify_waiters();
    server.wake();
}

impl SessionState {
    /// Whether every open document it read still has the text that was read.
    fn is_current(&self, checked: &Checked) -> bool {
        let mut read = checked
            .iter()
            .filter_map(|(file, found)| Some((file, found.as_ref()?)));
        read.all(|(file, found)| match self.workspace.text(file) {
            Some(text) => Arc::ptr_eq(&text, &found.text),
            None => true,
        })
    }

    /// How soon a file is wanted that nobody is editing.
    pub(crate) fn urgency(&self, root: &Path) -> Priority {
        if self.open.contains_key(root) {
            Priority::Open
        } else {
            Priority::Folder
        }
    }

    /// A file has changed: it is checked first, then all that read it.
    pub(crate) fn changed(&mut self, file: &Path, urgency: Priority) {
        for reader in self.shown.readers(file) {
            if reader != file {
                let urgency = self.urgency(&reader);
                self.queue.ask(&reader, urgency);
            }
        }
        self.queue.ask(file, urgency);
    }
}
