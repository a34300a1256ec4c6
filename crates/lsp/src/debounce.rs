//! Syntax findings on the line that is being typed on are pushed once the maker pauses: half a
//! statement is no slip. All others are pushed at once, and an editor that pulls gets all.

use crate::client_messages::ClientMessages;
use crate::server_state::{ServerState, SessionState};
use quillet_syntax::RuleId;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;
use tokio::time::{Instant, sleep_until};
use tower_lsp::lsp_types::{Diagnostic, NumberOrString};

/// How long after the last keystroke what is held back is pushed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct SyntaxDelay(pub(crate) Duration);

impl SyntaxDelay {
    /// Nothing is held back.
    pub(crate) const NONE: Self = Self(Duration::ZERO);
    /// The longest that can be set.
    const LONGEST: Duration = Duration::from_secs(10);

    /// A delay of so many milliseconds, ten seconds at most; none holds nothing back.
    pub(crate) fn from_ms(ms: u64) -> Self {
        Self(Duration::from_millis(ms).min(Self::LONGEST))
    }
}

impl Default for SyntaxDelay {
    fn default() -> Self {
        Self(Duration::from_millis(300))
    }
}

/// A line that is being typed on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Typing {
    /// The line of the last change.
    line: u32,
    /// When what is held back is due.
    until: Instant,
}

impl Typing {
    /// A change on a line, now.
    pub(crate) fn on(line: u32, delay: SyntaxDelay) -> Self {
        Self {
            line,
            until: Instant::now() + delay.0,
        }
    }

    /// Takes out what is held back; what the editor `shows` on the line already stays.
    pub(crate) fn hold_back(self, diagnostics: &mut Vec<Diagnostic>, shows: &[Diagnostic]) {
        if Instant::now() >= self.until {
            return;
        }
        let shown = |it: &Diagnostic| {
            let mut on_line = shows.iter().filter(|shown| self.is_held(shown));
            on_line.any(|shown| shown.message == it.message)
        };
        diagnostics.retain(|it| !self.is_held(it) || shown(it));
    }

    fn is_held(self, it: &Diagnostic) -> bool {
        let syntax = matches!(&it.code, Some(NumberOrString::String(code))
            if code == RuleId::SYNTAX.code());
        syntax && (it.range.start.line..=it.range.end.line).contains(&self.line)
    }
}

/// Pushes what was held back when it is due, until aborted.
pub(crate) async fn release(desk: Arc<ServerState>, outbox: ClientMessages) {
    loop {
        let pending = desk.state().next_due();
        let Some(until) = pending else {
            desk.typed.notified().await;
            continue;
        };
        tokio::select! {
            () = sleep_until(until) => push_due(&mut desk.state(), &outbox),
            () = desk.typed.notified() => {}
        }
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
    /// When the next of what is held back is due.
    fn next_due(&self) -> Option<Instant> {
        let typing = self.open.values().filter_map(|open| open.typing);
        typing.map(|typing| typing.until).min()
    }
}
