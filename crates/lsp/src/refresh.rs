//! When the editor is asked to ask again: once all is checked, and not again at every keystroke.

use crate::client_messages::ClientMessages;
use crate::server_state::{ServerState, SessionState};
use std::time::Duration;
use tokio::time::Instant;

/// From one time to the next, at least.
const APART: Duration = Duration::from_millis(500);

/// Whether what is shown of files other than the edited one may have changed, and when the editor was
/// last asked to look.
#[derive(Debug, Default)]
pub(crate) struct Refresh {
    wanted: bool,
    last: Option<Instant>,
}

impl Refresh {
    /// The editor is to ask again, where so.
    pub(crate) fn want(&mut self, wanted: bool) {
        self.wanted |= wanted;
    }
}

impl SessionState {
    /// When the editor is asked next; none where it need not be, or not all is checked.
    pub(crate) fn refresh_due(&self) -> Option<Instant> {
        let due = || match self.refresh.last {
            Some(last) => last + APART,
            None => Instant::now(),
        };
        (self.refresh.wanted && self.is_settled()).then(due)
    }
}

impl ServerState {
    /// Asks the editor now where it is due, else when it is.
    pub(crate) fn refresh(&self, state: &mut SessionState, outbox: &ClientMessages) {
        let Some(due) = state.refresh_due() else {
            return;
        };
        let now = Instant::now();
        if due > now {
            self.due.notify_one();
            return;
        }
        state.refresh = Refresh {
            wanted: false,
            last: Some(now),
        };
        outbox.refresh(state);
    }
}
