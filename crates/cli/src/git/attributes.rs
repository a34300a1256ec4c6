//! Which files are designs, in a clone's own attributes.

use super::{ATTRIBUTES, MARK, Report, Task};
use crate::files;
use quillet_history::Repository;
use std::path::Path;

pub(super) fn work(at: &Repository, task: Task, report: &mut Report) -> Result<(), String> {
    let path = at
        .git_path("info/attributes")
        .map_err(|error| error.to_string())?;
    let now = text_of(&path)?;
    let ours = format!("{MARK}\n{ATTRIBUTES}\n");
    let says = match (task, now.contains(&ours)) {
        (Task::Install, true) => "set already",
        (Task::Install, false) => {
            let apart = if now.is_empty() || now.ends_with('\n') {
                ""
            } else {
                "\n"
            };
            super::hooks::put(&path, &format!("{now}{apart}{ours}"))?;
            "set"
        }
        (Task::Remove, true) => {
            files::replace(&path, &now.replace(&ours, ""))?;
            "taken out"
        }
        (Task::Status, true) => "set",
        (Task::Remove | Task::Status, false) => "not set",
    };
    report.add("*.quillet", says);
    Ok(())
}

fn text_of(path: &Path) -> Result<String, String> {
    match path.exists() {
        true => files::read(path),
        false => Ok(String::new()),
    }
}
