//! Whether the editor's process still runs: it may be ended in a way that leaves the pipe open.

use std::time::Duration;

/// How often it is looked for.
const EVERY: Duration = Duration::from_secs(1);

/// Waits until the process is gone; for ever where it never was in sight, as it is not from
/// within a container.
pub(crate) async fn gone(id: u32) {
    if !runs(id) {
        return std::future::pending().await;
    }
    while runs(id) {
        tokio::time::sleep(EVERY).await;
    }
}

#[cfg(unix)]
fn runs(id: u32) -> bool {
    use rustix::io::Errno;
    use rustix::process::{Pid, test_kill_process};
    let Some(pid) = i32::try_from(id).ok().and_then(Pid::from_raw) else {
        return false;
    };
    test_kill_process(pid) != Err(Errno::SRCH) && !is_dead_body(id)
}

/// Whether it has ended and only its parent has not noticed.
#[cfg(unix)]
fn is_dead_body(id: u32) -> bool {
    // Where there is no such file it is not known, and the parent's own end will tell.
    let about = std::fs::read_to_string(format!("/proc/{id}/stat")).unwrap_or_default();
    let state = about
        .rsplit_once(") ")
        .and_then(|(_, rest)| rest.chars().next());
    matches!(state, Some('Z' | 'X'))
}

/// There the pipe closes with the process.
#[cfg(not(unix))]
fn runs(_: u32) -> bool {
    false
}
