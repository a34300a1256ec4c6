//! `quillet git` and `quillet merge-file` in scratch repositories.

mod merged;

use crate::run::{ended, repository, run, stdout};
use quillet_fixture::Scratch;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;
use tempfile::{TempDir, tempdir};

fn at(folder: &TempDir) -> Scratch<'_> {
    Scratch {
        folder: folder.path(),
    }
}

/// Git with the program at hand, as a maker has it.
fn git(folder: &Path, words: &[&str]) -> Output {
    let program = PathBuf::from(env!("CARGO_BIN_EXE_quillet"));
    let mut paths = vec![program.parent().unwrap().to_owned()];
    paths.extend(std::env::split_paths(
        &std::env::var_os("PATH").unwrap_or_default(),
    ));
    let mut git = Scratch { folder }.command(words);
    git.env("PATH", std::env::join_paths(paths).unwrap());
    git.output().unwrap()
}

#[track_caller]
fn goes(folder: &Path, words: &[&str]) {
    let (code, out, aside) = ended(&git(folder, words));
    assert_eq!(code, Some(0), "git {words:?}: {out}{aside}");
}

/// Every file of git's own that install may touch, and the settings.
fn state(folder: &Path) -> Vec<String> {
    let names = [
        "config",
        "info/attributes",
        "hooks/pre-commit",
        "hooks/pre-merge-commit",
    ];
    let text = |name: &&str| fs::read_to_string(folder.join(".git").join(name)).unwrap_or_default();
    names.iter().map(text).collect()
}

fn change(folder: &Path, name: &str, from: &str, to: &str) {
    let path = folder.join(name);
    let text = fs::read_to_string(&path).unwrap();
    assert!(text.contains(from), "{name} holds {from:?}");
    fs::write(path, text.replace(from, to)).unwrap();
}

#[test]
fn what_install_puts_in_remove_takes_out_and_no_more() {
    let folder = repository("");
    fs::create_dir_all(folder.path().join(".git/info")).unwrap();
    fs::write(folder.path().join(".git/info/attributes"), "*.png binary").unwrap();
    let before = state(folder.path());
    assert!(stdout(&run(folder.path(), &["git", "status"])).contains("not set"));
    let (code, out, aside) = ended(&run(folder.path(), &["git", "install", "--hooks"]));
    assert_eq!((code, aside.as_str()), (Some(0), ""), "{out}");
    let installed = state(folder.path());
    assert!(
        installed[1].starts_with("*.png binary\n"),
        "{}",
        installed[1]
    );
    assert!(
        !installed.concat().contains(env!("CARGO_BIN_EXE_quillet")),
        "never by its whole path"
    );
    let status = stdout(&run(folder.path(), &["git", "status"]));
    assert!(!status.contains("not set"), "{status}");
    assert_eq!(
        run(folder.path(), &["git", "install", "--hooks"])
            .status
            .code(),
        Some(0)
    );
    assert_eq!(state(folder.path()), installed, "twice changes nothing");
    assert_eq!(
        run(folder.path(), &["git", "remove"]).status.code(),
        Some(0)
    );
    let after = state(folder.path());
    assert_eq!(after[1].trim_end(), before[1].trim_end());
    assert_eq!((&after[2], &after[3]), (&before[2], &before[3]));
    assert!(
        !after[0].contains("quillet-") && !after[0].contains("merge-file"),
        "{}",
        after[0]
    );
}

#[test]
fn what_is_someone_elses_is_left_and_told() {
    let folder = repository("");
    let hook = folder.path().join(".git/hooks/pre-commit");
    fs::create_dir_all(hook.parent().unwrap()).unwrap();
    fs::write(&hook, "#!/bin/sh\nexit 0\n").unwrap();
    at(&folder).git(&["config", "merge.quillet.driver", "another %A"]);
    let (code, out, _) = ended(&run(folder.path(), &["git", "install", "--hooks"]));
    assert_eq!(code, Some(1), "{out}");
    assert!(
        out.contains("is left as it is; add: quillet format --check --at index ."),
        "{out}"
    );
    assert_eq!(fs::read_to_string(&hook).unwrap(), "#!/bin/sh\nexit 0\n");
    let (_, out, _) = ended(&run(folder.path(), &["git", "remove"]));
    assert!(out.contains("is not ours and is left as it is"), "{out}");
    assert_eq!(
        at(&folder).git(&["config", "merge.quillet.driver"]),
        "another %A\n"
    );
    assert!(hook.exists());

    let elsewhere = repository("");
    at(&elsewhere).git(&["config", "core.hooksPath", "shared-hooks"]);
    let (code, out, _) = ended(&run(elsewhere.path(), &["git", "install", "--hooks"]));
    assert_eq!(code, Some(1), "{out}");
    assert!(
        out.contains("lie in shared-hooks and are left as they are"),
        "{out}"
    );
    assert!(!elsewhere.path().join("shared-hooks").exists());
}

#[test]
fn only_new_findings_of_what_is_staged_stop_a_commit() {
    let folder = repository("");
    assert_eq!(
        run(folder.path(), &["git", "install", "--hooks"])
            .status
            .code(),
        Some(0)
    );
    // Knot has its errors since before; another note about it is no reason to stop.
    fs::write(folder.path().join("notes.txt"), "the tide is out\n").unwrap();
    goes(folder.path(), &["add", "-A"]);
    goes(folder.path(), &["commit", "-m", "notes"]);
    change(
        folder.path(),
        "bought.quillet",
        "outside dia 7.4",
        "outside dia 12.9",
    );
    goes(folder.path(), &["add", "-A"]);
    let stopped = git(folder.path(), &["commit", "-m", "a thicker converter"]);
    assert_eq!(stopped.status.code(), Some(1), "{stopped:?}");
    let said = stdout(&stopped) + &String::from_utf8_lossy(&stopped.stderr);
    assert!(
        said.contains("wont-pass") && said.contains("known"),
        "{said}"
    );
    // What lies in the folder is not what is staged.
    change(
        folder.path(),
        "bought.quillet",
        "outside dia 12.9",
        "outside dia 7.4",
    );
    assert_eq!(
        git(folder.path(), &["commit", "-m", "still"]).status.code(),
        Some(1)
    );
}

#[test]
fn a_first_commit_has_nothing_before_it() {
    let folder = tempdir().unwrap();
    let scratch = Scratch::init(folder.path());
    assert_eq!(
        run(folder.path(), &["git", "install", "--hooks"])
            .status
            .code(),
        Some(0)
    );
    scratch.write("notes.txt", "no pen yet\n");
    goes(folder.path(), &["add", "-A"]);
    goes(folder.path(), &["commit", "-m", "no pen"]);
    let again = tempdir().unwrap();
    let scratch = Scratch::init(again.path());
    assert_eq!(
        run(again.path(), &["git", "install", "--hooks"])
            .status
            .code(),
        Some(0)
    );
    scratch.write("tern.quillet", "part cap {\n");
    goes(again.path(), &["add", "-A"]);
    assert_eq!(
        git(again.path(), &["commit", "-m", "an error"])
            .status
            .code(),
        Some(1)
    );
}

/// Two good branches that make a pen which cannot be put together.
#[test]
fn a_clean_merge_that_breaks_a_pen_is_stopped() {
    let folder = repository("");
    let path = folder.path();
    goes(path, &["checkout", "--quiet", "-b", "thicker"]);
    change(path, "bought.quillet", "outside dia 7.4", "outside dia 7.7");
    goes(path, &["commit", "--quiet", "-am", "a thicker converter"]);
    goes(path, &["checkout", "--quiet", "main"]);
    change(path, "heron.quillet", "drill 8.0", "drill 7.6");
    goes(path, &["commit", "--quiet", "-am", "narrower bores"]);
    let head = at(&folder).git(&["rev-parse", "HEAD"]);
    assert_eq!(
        run(path, &["git", "install", "--hooks"]).status.code(),
        Some(0)
    );
    let merge = git(path, &["merge", "thicker"]);
    let said = stdout(&merge) + &String::from_utf8_lossy(&merge.stderr);
    assert_eq!(merge.status.code(), Some(1), "{said}");
    assert!(said.contains("wont-pass"), "{said}");
    assert_eq!(
        at(&folder).git(&["rev-parse", "HEAD"]),
        head,
        "nothing is committed"
    );
    goes(path, &["merge", "--abort"]);
    assert_eq!(run(path, &["git", "remove"]).status.code(), Some(0));
    goes(path, &["merge", "--quiet", "thicker"]);
}
