//! When the editor is asked to ask again: once all is checked, and not again at every keystroke.

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

    /// When the editor may be asked next; none where it need not be.
    pub(crate) fn due(&self) -> Option<Instant> {
        let due = || match self.last {
            Some(last) => last + APART,
            None => Instant::now(),
        };
        self.wanted.then(due)
    }

    /// The editor is asked now.
    pub(crate) fn asked(&mut self, now: Instant) {
        (self.wanted, self.last) = (false, Some(now));
    }
}
