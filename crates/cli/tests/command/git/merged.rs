//! `quillet merge-file`: what merges by lines alone, what by the design, and what conflicts.

use super::{change, git, goes};
use crate::run::{ended, repository, run};
use std::fs;
use std::path::Path;
use tempfile::tempdir;

fn widen_the_countersink(path: &Path) {
    let (old, new) = ("countersink 10.4", "countersink 10.6");
    change(path, "heron.quillet", old, new);
    goes(path, &["commit", "--quiet", "-am", "a wider countersink"]);
}

/// One branch renames a thread, the other changes a number beside one: no line moves another.
#[test]
fn a_renaming_and_a_number_beside_it_merge_by_lines_alone() {
    let folder = repository("");
    let path = folder.path();
    goes(path, &["checkout", "--quiet", "-b", "renamed"]);
    rename_joint(path);
    goes(path, &["commit", "--quiet", "-am", "say which joint"]);
    goes(path, &["checkout", "--quiet", "main"]);
    widen_the_countersink(path);
    goes(path, &["merge", "--quiet", "-m", "both", "renamed"]);
    let merged = fs::read_to_string(path.join("heron.quillet")).unwrap();
    assert!(merged.contains("countersink 10.6") && merged.contains("section-joint"));
}

/// The day a file comes into its columns, and a branch on which it never did.
#[test]
fn columns_that_differ_do_not_conflict() {
    let folder = repository("");
    let path = folder.path();
    let heron = path.join("heron.quillet");
    let text = fs::read_to_string(&heron).unwrap();
    fs::write(&heron, quillet_syntax::loosened(&text)).unwrap();
    goes(path, &["commit", "--quiet", "-am", "as it was written"]);
    goes(path, &["checkout", "--quiet", "-b", "columns"]);
    fs::write(&heron, &text).unwrap();
    goes(path, &["commit", "--quiet", "-am", "in columns"]);
    goes(path, &["checkout", "--quiet", "main"]);
    widen_the_countersink(path);
    let plain = git(path, &["merge", "columns"]);
    assert_eq!(plain.status.code(), Some(1), "by lines alone they conflict");
    goes(path, &["merge", "--abort"]);
    assert_eq!(run(path, &["git", "install"]).status.code(), Some(0));
    goes(path, &["merge", "--quiet", "-m", "both", "columns"]);
    let merged = fs::read_to_string(&heron).unwrap();
    assert_eq!(merged, text.replace("countersink 10.4", "countersink 10.6"));
}

/// Renames the thread `joint` of Heron and brings the file into form.
fn rename_joint(folder: &Path) {
    let path = folder.join("heron.quillet");
    let text = fs::read_to_string(&path).unwrap();
    let renamed = text.replace("thread joint ", "thread section-joint ");
    let renamed = renamed.replace("with joint", "with section-joint");
    assert_ne!(text, renamed);
    fs::write(&path, quillet_syntax::format(&renamed)).unwrap();
}

#[test]
fn a_place_that_both_changed_keeps_both_versions() {
    let folder = tempdir().unwrap();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    let text = |dia: &str| format!("let body = {dia}\nlet grip = 11\n");
    write("base", &text("12"));
    write("ours", &text("12.5"));
    write("theirs", &text("13"));
    let (code, ..) = ended(&run(
        folder.path(),
        &["merge-file", "base", "ours", "theirs", "9"],
    ));
    assert_eq!(code, Some(1));
    let merged = fs::read_to_string(folder.path().join("ours")).unwrap();
    assert!(
        merged.contains("<<<<<<<<< ours\nlet body = 12.5\n"),
        "{merged}"
    );
    assert!(
        merged.contains(">>>>>>>>> theirs\nlet grip = 11\n"),
        "{merged}"
    );
    assert_eq!(
        fs::read_dir(folder.path()).unwrap().count(),
        3,
        "nothing is left behind"
    );
    let gone = ended(&run(folder.path(), &["merge-file", "base", "ours", "gone"]));
    assert_eq!(gone.0, Some(2), "{}", gone.2);
    assert_eq!(
        fs::read_to_string(folder.path().join("ours")).unwrap(),
        merged
    );
}
