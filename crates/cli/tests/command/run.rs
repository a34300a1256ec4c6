//! Runs the command.

use quillet_fixture::{EXAMPLES, Scratch};
use std::ffi::OsStr;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use tempfile::{TempDir, tempdir};

/// The command in a folder, with nothing on standard input.
pub(crate) fn command(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_quillet"));
    command.current_dir(folder).stdin(Stdio::null());
    command
}

/// Runs it to its end.
pub(crate) fn run(folder: &Path, args: &[impl AsRef<OsStr>]) -> Output {
    command(folder).args(args).output().unwrap()
}

/// Runs it to its end with a text on standard input.
pub(crate) fn run_fed(folder: &Path, args: &[impl AsRef<OsStr>], input: &[u8]) -> Output {
    let mut command = command(folder);
    command.stdin(Stdio::piped());
    command.stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.args(args).spawn().unwrap();
    child.stdin.take().unwrap().write_all(input).unwrap();
    child.wait_with_output().unwrap()
}

/// How it ended, and what it printed and said aside.
pub(crate) fn ended(output: &Output) -> (Option<i32>, String, String) {
    (output.status.code(), stdout(output), stderr(output))
}

/// What it printed.
pub(crate) fn stdout(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

/// What it said aside.
pub(crate) fn stderr(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// What it printed, read as JSON.
pub(crate) fn json(output: &Output) -> serde_json::Value {
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The folder of the examples that ship.
pub(crate) fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples")
}

/// A repository with the examples in a folder of it, committed.
pub(crate) fn repository(below: &str) -> TempDir {
    let folder = tempdir().unwrap();
    let scratch = Scratch::init(folder.path());
    for (name, text) in EXAMPLES {
        scratch.write(&format!("{below}{name}"), text);
    }
    scratch.commit("the pens of this bench");
    folder
}
