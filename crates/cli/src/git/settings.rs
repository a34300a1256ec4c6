//! The settings of a clone.

use super::{Report, Task};
use quillet_history::{HistoryError, Repository};

/// Each setting and what it is to say.
const SETTINGS: [(&str, &str); 4] = [
    ("merge.quillet.name", "a design, whatever its columns"),
    ("merge.quillet.driver", "quillet merge-file %O %A %B %L"),
    (
        "diff.quillet.xfuncname",
        "^((part|pen|bought|bench|material|thread|blank|let)[ \t].*)$",
    ),
    (
        "diff.quillet.wordRegex",
        "[a-z][A-Za-z0-9-]*|[0-9.]+|[^[:space:]]",
    ),
];

pub(super) fn work(at: &Repository, task: Task, report: &mut Report) -> Result<(), String> {
    let said = |error: HistoryError| error.to_string();
    for (key, value) in SETTINGS {
        let now = at.setting(key, false).map_err(said)?;
        let ours = now.as_deref() == Some(value);
        let says = match (task, now) {
            (Task::Install, None) => {
                at.set(key, value).map_err(said)?;
                "set"
            }
            (Task::Install, Some(_)) if ours => "set already",
            (Task::Install, Some(_)) => {
                report.lacking = true;
                "says something else and is left as it is"
            }
            (Task::Remove, Some(_)) if ours => {
                at.unset(key).map_err(said)?;
                "taken out"
            }
            (Task::Remove, Some(_)) => "says something else and is left as it is",
            (Task::Status, Some(_)) if ours => "set",
            (Task::Status, Some(_)) => "says something else",
            (Task::Remove | Task::Status, None) => "not set",
        };
        report.add(key, says);
    }
    Ok(())
}
