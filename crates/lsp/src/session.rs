//! How a server is set up before it serves.

use std::time::Duration;

/// A server yet to be served to one editor.
#[derive(Clone, Copy, Debug, Default)]
pub struct Session {
    pub(crate) probes: bool,
    pub(crate) analysis_delay: Duration,
    pub(crate) scan_delay: Duration,
}

impl Session {
    /// A server as editors get it.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds the methods by which tests look inside: `quillet/probe/…`.
    #[doc(hidden)]
    #[must_use]
    pub fn with_probes(self) -> Self {
        Self {
            probes: true,
            ..self
        }
    }

    /// Makes every analysis take at least this long, for tests of what happens meanwhile.
    #[doc(hidden)]
    #[must_use]
    pub fn with_slow_analysis(self, analysis_delay: Duration) -> Self {
        Self {
            analysis_delay,
            ..self
        }
    }

    /// Makes every look through the folders take at least this long, for tests of what happens meanwhile.
    #[doc(hidden)]
    #[must_use]
    pub fn with_slow_scan(self, scan_delay: Duration) -> Self {
        Self { scan_delay, ..self }
    }
}
