//! How long two states of Heron take beside git, and a folder of a thousand pens.
#![allow(clippy::expect_used, reason = "a bench")]

use criterion::{Criterion, criterion_group, criterion_main};
use quillet_fixture::{EXAMPLES, Scratch};
use std::path::Path;
use std::process::Command;

/// Runs the command in a folder; it may end with what is denied.
fn compare(folder: &Path, words: &[&str]) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_quillet"));
    let output = command
        .arg("compare")
        .args(words)
        .current_dir(folder)
        .output();
    let code = output.expect("it runs").status.code();
    assert!(matches!(code, Some(0 | 1)), "{words:?}: {code:?}");
}

/// The processes that a comparison asks of git.
fn git(folder: &Path) {
    for words in [
        &["rev-parse", "--show-toplevel"][..],
        &["rev-parse", "--verify", "HEAD^{tree}"],
        &["ls-tree", "-r", "-z", "--full-tree", "HEAD"],
        &["cat-file", "--batch"],
    ] {
        let output = Command::new("git").args(words).current_dir(folder).output();
        assert!(output.expect("git runs").status.success());
    }
}

fn text(name: &str) -> &'static str {
    EXAMPLES
        .iter()
        .find(|it| it.0 == name)
        .expect("an example")
        .1
}

fn changed(folder: &Path, name: &str, old: &str, new: &str) {
    let path = folder.join(name);
    let text = std::fs::read_to_string(&path).expect("a file");
    assert!(text.contains(old));
    std::fs::write(path, text.replace(old, new)).expect("written");
}

fn two_sides(c: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder");
    let scratch = Scratch::init(folder.path());
    for name in ["heron.quillet", "saltings.quillet", "bought.quillet"] {
        scratch.write(name, text(name));
    }
    scratch.commit("Heron");
    changed(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    let mut group = c.benchmark_group("Heron");
    group.bench_function("git alone", |b| b.iter(|| git(folder.path())));
    group.bench_function("compare HEAD", |b| {
        b.iter(|| compare(folder.path(), &["HEAD"]))
    });
    group.bench_function("compare two files", |b| {
        std::fs::write(folder.path().join("old.quillet"), text("heron.quillet")).expect("written");
        b.iter(|| compare(folder.path(), &["old.quillet", "heron.quillet"]));
    });
    group.finish();
}

fn a_thousand(c: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder");
    let scratch = Scratch::init(folder.path());
    for name in ["saltings.quillet", "bought.quillet"] {
        scratch.write(name, text(name));
    }
    let heron = text("heron.quillet");
    let one = heron.split("pen heron-ida").next().unwrap_or(heron);
    for number in 0..1_000 {
        let own = one.replace("pen heron \"Heron\"", &format!("pen heron-{number}"));
        scratch.write(&format!("heron-{number}.quillet"), &own);
    }
    scratch.commit("a thousand");
    let mut group = c.benchmark_group("1000 pens");
    group.sample_size(10);
    changed(
        folder.path(),
        "heron-7.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    group.bench_function("one changed", |b| {
        b.iter(|| compare(folder.path(), &["HEAD"]))
    });
    changed(
        folder.path(),
        "heron-7.quillet",
        "let grip = 11.0",
        "let grip = 11.4",
    );
    changed(
        folder.path(),
        "saltings.quillet",
        "M10x0.75 lead 2",
        "M10x0.75 lead 2.4",
    );
    group.bench_function("the bench changed", |b| {
        b.iter(|| compare(folder.path(), &["HEAD"]))
    });
    group.finish();
}

criterion_group!(benches, two_sides, a_thousand);
criterion_main!(benches);
