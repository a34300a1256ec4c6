//! A flag that says nobody waits for the result any more.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Shared by who works and who may call it off.
#[derive(Clone, Debug, Default)]
pub(crate) struct CancellationToken(Arc<AtomicBool>);

impl CancellationToken {
    /// Calls the work off.
    pub(crate) fn call_off(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Whether it was called off.
    pub(crate) fn is_off(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }

    /// Calls the work off when dropped, as the protocol library drops a cancelled request.
    pub(crate) fn on_drop(&self) -> CancelOnDrop {
        CancelOnDrop(self.clone())
    }
}

/// See [`CancellationToken::on_drop`].
pub(crate) struct CancelOnDrop(CancellationToken);

impl Drop for CancelOnDrop {
    fn drop(&mut self) {
        self.0.call_off();
    }
}
