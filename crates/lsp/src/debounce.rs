//! What was held back while a line was being typed on is pushed once the maker pauses, and the editor is
//! asked to ask again when it may be.

use crate::client_messages::ClientMessages;
use crate::server_state::{ServerState, SessionState};
use std::path::PathBuf;
use std::sync::Arc;
use tokio::time::{Instant, sleep_until};

/// Pushes what was held back and asks the editor when it is due, until aborted.
pub(crate) async fn release(server: Arc<ServerState>, outbox: ClientMessages) {
    loop {
        let pending = server.state().next_due();
        let Some(until) = pending else {
            server.due.notified().await;
            continue;
        };
        tokio::select! {
            () = sleep_until(until) => {
                let mut state = server.state();
                push_due(&mut state, &outbox);
                ask_due(&mut state, &outbox);
            }
            () = server.due.notified() => {}
        }
    }
}

/// Asks the editor to ask again where it is to, all is checked and it may be asked.
fn ask_due(state: &mut SessionState, outbox: &ClientMessages) {
    // What is due at once says so by the time it is asked at.
    let Some(due) = state.refresh_due() else {
        return;
    };
    let now = Instant::now();
    if due <= now {
        state.refresh.asked(now);
        outbox.refresh(state);
    }
}

fn push_due(state: &mut SessionState, outbox: &ClientMessages) {
    let now = Instant::now();
    let mut due: Vec<PathBuf> = Vec::new();
    for (path, open) in &mut state.open {
        if open.typing.is_some_and(|typing| typing.until <= now) {
            open.typing = None;
            due.push(path.clone());
        }
    }
    for path in due {
        // What is being checked is pushed, whole, when it has been.
        if !state.queue.holds(&path) {
            outbox.push_held(state, &path);
        }
    }
}

impl SessionState {
    /// When the next of what is held back is due, or the editor is asked.
    fn next_due(&self) -> Option<Instant> {
        let typing = self.open.values().filter_map(|open| open.typing);
        let held = typing.map(|typing| typing.until);
        held.chain(self.refresh_due()).min()
    }

    /// When the editor is asked to ask again; none before all is checked.
    fn refresh_due(&self) -> Option<Instant> {
        self.refresh.due().filter(|_| self.is_settled())
    }
}
