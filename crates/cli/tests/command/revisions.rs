//! `--at`: every command that reads, on the files as they were.

use crate::run::{ended, examples, repository, run, stderr, stdout};
use quillet_fixture::Scratch;
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs;
use std::path::Path;
use tempfile::{TempDir, tempdir};

/// A repository that holds the examples, and in its folder none of them any more.
fn emptied() -> TempDir {
    let folder = repository("pens/");
    fs::remove_dir_all(folder.path().join("pens")).unwrap();
    folder
}

#[test]
fn every_reading_command_says_of_a_revision_what_it_says_of_the_files() {
    let folder = emptied();
    let asked: [&[&str]; 8] = [
        &["check", "heron.quillet"],
        &["check", "--format", "json", "knot.quillet"],
        &["measure", "heron.quillet"],
        &["tools", "heron.quillet"],
        &["cut", "heron.quillet"],
        &["sheet", "heron.quillet", "-o", "OUT.txt"],
        &["draw", "heron.quillet", "-o", "OUT.svg"],
        &["solid", "heron.quillet", "-o", "OUT.step"],
    ];
    let (old, new) = (folder.path().join("old"), folder.path().join("new"));
    for words in asked {
        let words_for = |pens: &str, out: &Path| -> Vec<String> {
            fs::create_dir_all(out).unwrap();
            let word = |word: &&str| match word.strip_prefix("OUT") {
                Some(_) => out.join(word).to_string_lossy().into_owned(),
                None if word.ends_with(".quillet") => format!("{pens}{word}"),
                None => (*word).to_owned(),
            };
            words.iter().map(word).collect()
        };
        let mut then = words_for("pens/", &old);
        then.extend(["--at".to_owned(), "HEAD".to_owned()]);
        let (code, out, aside) = ended(&run(folder.path(), &then));
        let now = ended(&run(&examples(), &words_for("", &new)));
        let here = |written: String| written.replace("pens/", "").replace("/old/", "/new/");
        assert_eq!((code, here(out), here(aside)), now, "{words:?}");
        assert_eq!(written_in(&old), written_in(&new), "{words:?}");
    }
}

/// The files of a folder, by name.
fn written_in(folder: &Path) -> BTreeMap<OsString, Vec<u8>> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    let each = entries.map(|it| (it.file_name(), fs::read(it.path()).unwrap()));
    each.collect()
}

#[test]
fn a_folder_is_looked_through_as_it_was() {
    let folder = emptied();
    let (code, out, aside) = ended(&run(
        folder.path(),
        &["check", "--at", "main", "--brief", "."],
    ));
    assert_eq!((code, aside.as_str()), (Some(1), ""));
    assert!(out.contains("pens/knot.quillet"), "{out}");
    let formatted = run(
        folder.path(),
        &["format", "--check", "--at", "main", "pens"],
    );
    assert_eq!(ended(&formatted), (Some(0), String::new(), String::new()));
    let nothing = ended(&run(folder.path(), &["check", "--at", "main", "egrets"]));
    assert_eq!(nothing.0, Some(2));
    assert!(
        nothing.2.contains("egrets: there is no such file"),
        "{}",
        nothing.2
    );
}

#[test]
fn what_would_be_committed_is_checked_not_what_lies_there() {
    let folder = tempdir().unwrap();
    let scratch = Scratch::init(folder.path());
    scratch
        .write("tern.quillet", "part cap {\n")
        .git(&["add", "-A"]);
    scratch.write("tern.quillet", "let grip = 11\n");
    let staged = run(folder.path(), &["check", "--at", "index", "tern.quillet"]);
    assert_eq!(staged.status.code(), Some(1), "{}", stdout(&staged));
    let lying = run(folder.path(), &["check", "tern.quillet"]);
    assert_eq!(lying.status.code(), Some(0), "{}", stdout(&lying));
}

#[test]
fn what_cannot_be_had_is_a_sentence_and_changes_nothing() {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("tern.quillet"), "let  grip = 11\n").unwrap();
    let asked = |words: &[&str]| {
        let output = run(folder.path(), words);
        assert_eq!(output.status.code(), Some(2), "{words:?}");
        assert_eq!(stdout(&output), "", "{words:?}");
        stderr(&output)
    };
    let no_repository = asked(&["measure", "--at", "HEAD", "tern.quillet"]);
    assert!(
        no_repository.contains("is in no git repository"),
        "{no_repository}"
    );
    let scratch = Scratch::init(folder.path());
    let unborn = asked(&["check", "--at", "HEAD", "tern.quillet"]);
    assert!(
        unborn.contains("nothing has been committed here yet"),
        "{unborn}"
    );
    scratch.commit("first");
    let unknown = asked(&["check", "--at=--output=x", "tern.quillet"]);
    assert!(
        unknown.contains("there is no revision \"--output=x\" here"),
        "{unknown}"
    );
    let changing = asked(&["format", "--at", "HEAD", "tern.quillet"]);
    assert!(changing.contains("--at goes with --check"), "{changing}");
    assert_eq!(
        fs::read_dir(folder.path()).unwrap().count(),
        2,
        "nothing is written"
    );
}
