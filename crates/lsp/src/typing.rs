//! Syntax findings on the line that is being typed on are held back: half a statement is no slip.
//! All others are pushed at once, and an editor that pulls gets all.

use quillet_syntax::RuleId;
use std::time::Duration;
use tokio::time::Instant;
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
    pub(crate) until: Instant,
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
