//! What every example comes to, held still: a change of a figure is a change that must be meant.

#![allow(clippy::unwrap_used, reason = "tests")]

use std::path::Path;
use std::process::Command;

/// What `quillet measure` prints of an example.
fn measured(name: &str) -> String {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let output = Command::new(env!("CARGO_BIN_EXE_quillet"))
        .args(["measure", "--full"])
        .arg(examples.join(name).with_extension("quillet"))
        .output()
        .unwrap();
    assert!(output.status.success() && output.stderr.is_empty());
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn heron() {
    insta::assert_snapshot!(measured("heron"));
}

#[test]
fn avocet() {
    insta::assert_snapshot!(measured("avocet"));
}

#[test]
fn curlew() {
    insta::assert_snapshot!(measured("curlew"));
}

#[test]
fn dunlin() {
    insta::assert_snapshot!(measured("dunlin"));
}

#[test]
fn godwit() {
    insta::assert_snapshot!(measured("godwit"));
}

#[test]
fn whimbrel() {
    insta::assert_snapshot!(measured("whimbrel"));
}
