//! What `quillet compare` cannot be asked for, and odd places it is asked in.

use super::{change, told};
use crate::run::{command, ended, examples, repository, run, stderr, stdout};
use quillet_fixture::Scratch;
use std::collections::BTreeSet;
use std::fs;

/// Whatever cannot be compared is a sentence and 2, and nothing is written.
#[test]
#[expect(clippy::too_many_lines, reason = "one list of questions and answers")]
fn what_cannot_be_had_is_a_sentence() {
    let folder = repository("");
    let asked = |words: &[&str]| {
        let before = fs::read_dir(folder.path()).unwrap().count();
        let output = ended(&run(folder.path(), &[&["compare"], words].concat()));
        assert_eq!(
            (output.0, output.1.as_str()),
            (Some(2), ""),
            "{words:?}: {}",
            output.2
        );
        assert_eq!(
            fs::read_dir(folder.path()).unwrap().count(),
            before,
            "{words:?}"
        );
        output.2
    };
    assert!(asked(&["nobody"]).contains("there is no revision \"nobody\" here"));
    assert!(asked(&["nobody", "-o", "out.html"]).contains("there is no revision"));
    assert!(asked(&["HEAD:egret.quillet"]).contains("egret.quillet is not in HEAD"));
    assert!(asked(&["egret.quillet", "heron.quillet"]).contains("no such file or folder"));
    assert!(asked(&["heron.quillet"]).contains("is one side"));
    assert!(asked(&["--pen", "egret"]).contains("there is no pen egret"));
    assert!(asked(&["HEAD", "--", "egret.quillet"]).contains("no *.quillet file there"));
    let scratch = Scratch {
        folder: folder.path(),
    };
    // A branch each, and an index that holds both.
    scratch.git(&["checkout", "--quiet", "-b", "other"]);
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.2",
    );
    scratch
        .commit("theirs")
        .git(&["checkout", "--quiet", "main"]);
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    scratch.commit("ours").try_git(&["merge", "other"]);
    assert!(asked(&["HEAD", "index"]).contains("its merge is not finished"));
    let text = told(&folder, &["HEAD", "--pen", "heron"]);
    assert!(text.contains("unfinished-merge"), "{text}");
    // Which version counts is not known, so nothing else is told.
    assert_eq!(text.lines().count(), 2, "{text}");
    scratch.git(&["merge", "--abort"]);
    // A bare repository, a folder in none, a shallow clone.
    let bare = tempfile::tempdir().unwrap();
    let from = folder.path().to_str().unwrap();
    Scratch {
        folder: bare.path(),
    }
    .git(&["clone", "--quiet", "--bare", from, "."]);
    let in_bare = stderr(&run(bare.path(), &["compare"]));
    assert!(in_bare.contains("bare repository"), "{in_bare}");
    let none = tempfile::tempdir().unwrap();
    let in_none = stderr(&run(none.path(), &["compare"]));
    assert!(in_none.contains("is in no git repository"), "{in_none}");
    let url = format!("file://{from}");
    Scratch {
        folder: none.path(),
    }
    .git(&["clone", "--quiet", "--depth", "1", &url, "."]);
    let shallow = stderr(&run(none.path(), &["compare", "HEAD~1"]));
    assert!(shallow.contains("shallow clone"), "{shallow}");
}

#[test]
fn without_git_or_with_a_revision_like_an_option_nothing_is_written() {
    let folder = repository("");
    let names = || {
        let entries = fs::read_dir(folder.path()).unwrap();
        let names: BTreeSet<_> = entries.map(|it| it.unwrap().file_name()).collect();
        names
    };
    let before = names();
    let nowhere = tempfile::tempdir().unwrap();
    for words in [
        &["compare", "HEAD", "-o", "out.html"][..],
        &["measure", "--at", "HEAD", "heron.quillet"],
    ] {
        let mut command = command(folder.path());
        let output = command.env("PATH", nowhere.path()).args(words).output();
        let (code, printed, said) = ended(&output.unwrap());
        assert_eq!((code, printed.as_str()), (Some(2), ""), "{words:?}: {said}");
        assert!(said.contains("git"), "{said}");
    }
    for revision in ["-n", "--output=x", "--"] {
        let at = format!("--at={revision}");
        let output = run(folder.path(), &["sheet", &at, "heron.quillet"]);
        let (code, printed, said) = ended(&output);
        assert_eq!(
            (code, printed.as_str()),
            (Some(2), ""),
            "{revision}: {said}"
        );
        assert!(said.contains("there is no revision"), "{said}");
    }
    assert_eq!(names(), before);
}

#[test]
fn odd_names_and_worktrees_are_compared() {
    let folder = repository("");
    let scratch = Scratch {
        folder: folder.path(),
    };
    let heron = fs::read_to_string(examples().join("heron.quillet")).unwrap();
    let odd = "Ida’s \"blue\" Löffler\nnew.quillet";
    scratch.write(
        odd,
        &heron
            .replace("pen heron", "pen egret")
            .replace("like heron", "like egret"),
    );
    scratch.commit("odd");
    change(folder.path(), odd, "let grip = 11.4", "let grip = 11.0");
    assert!(told(&folder, &["--pen", "egret"]).contains("most -0.40 mm at 22.0"));
    let beside = tempfile::tempdir().unwrap();
    let place = beside.path().join("tree");
    scratch.git(&["worktree", "add", "--quiet", place.to_str().unwrap()]);
    change(
        &place,
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    let output = run(&place, &["compare", "--pen", "heron"]);
    assert!(
        stdout(&output).contains("most -0.40 mm at 22.0"),
        "{}",
        stderr(&output)
    );
    fs::write(folder.path().join("long.quillet"), vec![b'-'; 17 << 20]).unwrap();
    let (code, _, aside) = ended(&run(folder.path(), &["compare"]));
    assert_eq!(code, Some(2));
    assert!(aside.contains("longer than 16 MB"), "{aside}");
}
