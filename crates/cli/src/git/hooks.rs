//! The hooks of a clone: they look at what is staged, and only what is new stops.

use super::{MARK, Report, Task};
use crate::files;
use quillet_history::{HistoryError, Repository};
use std::fs;
use std::path::Path;

const HOOKS: [&str; 2] = ["pre-commit", "pre-merge-commit"];

/// What a hook of someone else's is to run besides.
const LINES: &str = "quillet format --check --at index . && \
    quillet check --at index --baseline HEAD --deny warning .";

/// The hook: it runs at the top of the working folder. A first commit has nothing before it.
fn script() -> String {
    format!(
        "#!/bin/sh\n{MARK}\n\
         [ -n \"$(git ls-files '*.quillet')\" ] || exit 0\n\
         if git rev-parse --quiet --verify HEAD >/dev/null; then\n  {LINES}\nelse\n  \
         quillet format --check --at index . && quillet check --at index --deny warning .\nfi\n"
    )
}

pub(super) fn work(at: &Repository, task: Task, report: &mut Report) -> Result<(), String> {
    let said = |error: HistoryError| error.to_string();
    let elsewhere = at.setting("core.hooksPath", true).map_err(said)?;
    if let (Task::Install, Some(folder)) = (task, &elsewhere) {
        report.lacking = true;
        report.add(
            "hooks",
            &format!("lie in {folder} and are left as they are; add: {LINES}"),
        );
        return Ok(());
    }
    for hook in HOOKS {
        let path = at.git_path(&format!("hooks/{hook}")).map_err(said)?;
        let there = fs::symlink_metadata(&path).is_ok();
        let ours = there && files::read(&path).is_ok_and(|text| text.contains(MARK));
        let says = match (task, there) {
            (Task::Install, true) if ours => "set already".to_owned(),
            (Task::Install, true) => {
                report.lacking = true;
                format!("is there and is left as it is; add: {LINES}")
            }
            (Task::Install, false) => {
                put(&path, &script())?;
                make_runnable(&path)?;
                "set".to_owned()
            }
            (Task::Remove, true) if ours => {
                fs::remove_file(&path).map_err(|error| files::cannot(&path, &error))?;
                "taken out".to_owned()
            }
            (Task::Remove, true) => "is not ours and is left as it is".to_owned(),
            (Task::Status, true) if ours => "set".to_owned(),
            (Task::Status, true) => "is not ours".to_owned(),
            (Task::Remove | Task::Status, false) => "not set".to_owned(),
        };
        report.add(hook, &says);
    }
    Ok(())
}

/// Writes a file, and the folder it lies in where there is none.
pub(super) fn put(path: &Path, text: &str) -> Result<(), String> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(|error| files::cannot(folder, &error))?;
    }
    files::put(path, text.as_bytes())
}

#[cfg(unix)]
fn make_runnable(path: &Path) -> Result<(), String> {
    use std::os::unix::fs::PermissionsExt;
    let runnable = fs::Permissions::from_mode(0o755);
    fs::set_permissions(path, runnable).map_err(|error| files::cannot(path, &error))
}

#[cfg(not(unix))]
fn make_runnable(_: &Path) -> Result<(), String> {
    Ok(())
}
