//! How far a command has come that takes its time: a line on a terminal's standard error, written over
//! and gone at the end.

use crate::{temp_file, terminal};
use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// What takes less is not told of.
const PATIENCE: Duration = Duration::from_millis(500);
/// The line is not written over more often.
const EACH: Duration = Duration::from_millis(100);

/// How many steps of a command are done, whatever thread does them.
pub(crate) struct Progress {
    what: &'static str,
    of: usize,
    done: AtomicUsize,
    since: Instant,
    /// When the line was last written, in milliseconds since then; 0 where it never was.
    shown_ms: AtomicU64,
    wanted: bool,
}

impl Progress {
    /// Of so many steps, each called so: `numbers`.
    pub(crate) fn of(steps: usize, what: &'static str) -> Self {
        let wanted = terminal::shows_asides();
        if wanted {
            temp_file::hear_signals();
        }
        Progress {
            what,
            of: steps,
            done: AtomicUsize::new(0),
            since: Instant::now(),
            shown_ms: AtomicU64::new(0),
            wanted,
        }
    }

    /// One step more is done.
    pub(crate) fn step(&self) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        let now = self.since.elapsed();
        let before = self.shown_ms.load(Ordering::Relaxed);
        if !self.wanted || !is_due(now, before) {
            return;
        }
        let now_ms = u64::try_from(now.as_millis()).unwrap_or(u64::MAX);
        // Of several threads that come at once one writes.
        let own =
            self.shown_ms
                .compare_exchange(before, now_ms, Ordering::Relaxed, Ordering::Relaxed);
        if own.is_ok() {
            terminal::over(&format!("{done} of {} {}", self.of, self.what));
        }
    }
}

/// Whether the line is to be written so long after the beginning, and after it was written before.
fn is_due(now: Duration, before_ms: u64) -> bool {
    now >= PATIENCE && (before_ms == 0 || now >= Duration::from_millis(before_ms) + EACH)
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.shown_ms.load(Ordering::Relaxed) > 0 {
            terminal::over("");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_quick_is_not_told_of() {
        let ms = Duration::from_millis;
        assert!(!is_due(ms(499), 0));
        assert!(is_due(ms(500), 0));
        assert!(!is_due(ms(599), 500));
        assert!(is_due(ms(600), 500));
    }
}
