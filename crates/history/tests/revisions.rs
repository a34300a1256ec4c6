//! Revisions of scratch repositories, made by git itself.

use quillet_fixture::Scratch;
use quillet_history::{HistoryError, INDEX, Repository, Revision};
use quillet_model::{LONGEST, ReadError, Source, SourceFile};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::{TempDir, tempdir};

const PART: &str = "part cap from mouth to crown {\n  length 60\n}\n";

fn revision(folder: &Path, name: &str) -> Result<Stood, HistoryError> {
    let revision = Repository::around(folder)?.revision(name)?;
    let folder = folder.to_owned();
    Ok(Stood { folder, revision })
}

/// A revision, and the folder it is asked from.
#[derive(Debug)]
struct Stood {
    folder: PathBuf,
    revision: Revision,
}

impl Stood {
    fn text(&self, path: &str) -> Result<String, ReadError> {
        Ok(self.open(path)?.text.to_string())
    }

    fn open(&self, path: &str) -> Result<Arc<SourceFile>, ReadError> {
        self.revision.open(&self.folder.join(path))
    }
}

fn folder() -> TempDir {
    tempdir().expect("a folder")
}

#[test]
fn a_file_is_had_as_it_was() {
    let folder = folder();
    let scratch = Scratch::init(folder.path());
    scratch.write("cap.quillet", PART).commit("first");
    scratch.write("cap.quillet", "part cap {}").commit("second");
    scratch.write("cap.quillet", "changed again");
    let old = revision(folder.path(), "HEAD~1").unwrap();
    assert_eq!(old.text("cap.quillet").unwrap(), PART);
    let absolute = folder.path().canonicalize().unwrap().join("cap.quillet");
    assert_eq!(old.revision.open(&absolute).unwrap().text.as_ref(), PART);
    let new = revision(folder.path(), "main").unwrap();
    assert_eq!(new.text("./cap.quillet").unwrap(), "part cap {}");
    assert_eq!(new.text("egret.quillet"), Err(ReadError::Missing));
    assert_ne!(old.revision.tree, new.revision.tree);
}

#[test]
fn the_index_is_what_would_be_committed() {
    let folder = folder();
    let scratch = Scratch::init(folder.path());
    scratch.write("cap.quillet", "committed").commit("first");
    scratch.write("cap.quillet", "staged").git(&["add", "-A"]);
    scratch.write("cap.quillet", "in the folder");
    let index = revision(folder.path(), INDEX).unwrap();
    assert_eq!(index.text("cap.quillet").unwrap(), "staged");
}

#[test]
fn names_may_hold_blanks_quotes_lines_and_umlauts() {
    let folder = folder();
    let top = folder.path().join("Möwe \"am\"\nUfer");
    std::fs::create_dir(&top).unwrap();
    let scratch = Scratch::init(&top);
    let names = [
        "Säbelschnäbler.quillet",
        "a b.quillet",
        "it's \"one\".quillet",
        "two\nlines.quillet",
    ];
    for name in names {
        scratch.write(&format!("in here/{name}"), name);
    }
    scratch.commit("odd names");
    let inside = top.join("in here");
    let here = revision(&inside, "HEAD").unwrap();
    for name in names {
        assert_eq!(here.text(name).unwrap(), name);
    }
    let above = revision(&top, "HEAD").unwrap();
    let found = above.revision.designs_below(&inside);
    assert_eq!(found.len(), names.len());
    assert_eq!(here.revision.beside(&inside).len(), names.len());
    assert!(above.revision.is_folder(&inside) && above.revision.is_folder(&top));
}

#[test]
fn paths_climb_out_of_the_folder_stood_in_but_not_of_the_repository() {
    let folder = folder();
    let scratch = Scratch::init(folder.path());
    scratch
        .write("shared.quillet", "shared")
        .write("pens/heron.quillet", "heron")
        .commit("two");
    let pens = revision(&folder.path().join("pens"), "HEAD").unwrap();
    assert_eq!(pens.text("../shared.quillet").unwrap(), "shared");
    let outside = pens.text("../../../../etc/passwd");
    let why = "it lies outside the repository";
    assert_eq!(outside, Err(ReadError::Unreadable(why.into())));
    assert_eq!(pens.text("."), Err(ReadError::NotAFile("a folder")));
}

#[cfg(unix)]
#[test]
fn links_are_followed_inside_the_tree_alone() {
    use std::os::unix::fs::symlink;
    let folder = folder();
    let scratch = Scratch::init(folder.path());
    scratch.write("shared/bench.quillet", "bench");
    symlink("shared", folder.path().join("lib")).unwrap();
    symlink("lib/bench.quillet", folder.path().join("bench.quillet")).unwrap();
    symlink("/etc/hostname", folder.path().join("out.quillet")).unwrap();
    symlink("loop.quillet", folder.path().join("loop.quillet")).unwrap();
    scratch.commit("links");
    let here = revision(folder.path(), "HEAD").unwrap();
    assert_eq!(here.text("bench.quillet").unwrap(), "bench");
    let through = here.open("lib/bench.quillet").unwrap();
    let itself = here.open("shared/bench.quillet").unwrap();
    assert_eq!(through.id, itself.id, "one file, whatever leads to it");
    assert!(matches!(
        here.text("out.quillet"),
        Err(ReadError::Unreadable(_))
    ));
    assert!(matches!(
        here.text("loop.quillet"),
        Err(ReadError::Unreadable(_))
    ));
}

#[test]
fn what_is_no_design_is_told_as_on_the_disk() {
    let folder = folder();
    let scratch = Scratch::init(folder.path());
    let long = usize::try_from(LONGEST).unwrap() + 1;
    std::fs::write(folder.path().join("long.quillet"), vec![b' '; long]).unwrap();
    std::fs::write(folder.path().join("bytes.quillet"), b"part \xff").unwrap();
    scratch
        .write("after.quillet", "read after the long one")
        .commit("odd");
    let here = revision(folder.path(), "HEAD").unwrap();
    assert_eq!(here.text("long.quillet"), Err(ReadError::TooLong));
    assert_eq!(here.text("bytes.quillet"), Err(ReadError::NotUtf8(5)));
    assert_eq!(
        here.text("after.quillet").unwrap(),
        "read after the long one"
    );
}

#[test]
fn a_merge_left_open_is_told() {
    let folder = folder();
    let scratch = Scratch::init(folder.path());
    scratch.write("cap.quillet", "one").commit("first");
    scratch.git(&["checkout", "--quiet", "-b", "other"]);
    scratch.write("cap.quillet", "two").commit("theirs");
    scratch.git(&["checkout", "--quiet", "main"]);
    scratch.write("cap.quillet", "three").commit("ours");
    assert!(!scratch.try_git(&["merge", "other"]).status.success());
    let index = revision(folder.path(), INDEX).unwrap();
    let why = "its merge is not finished";
    assert_eq!(
        index.text("cap.quillet"),
        Err(ReadError::Unreadable(why.into()))
    );
}

#[test]
fn a_submodule_is_not_looked_into() {
    let (folder, other) = (folder(), folder());
    Scratch::init(other.path())
        .write("cap.quillet", PART)
        .commit("inside");
    let scratch = Scratch::init(folder.path());
    let from = other.path().to_string_lossy().into_owned();
    scratch.git(&[
        "-c",
        "protocol.file.allow=always",
        "submodule",
        "--quiet",
        "add",
        &from,
        "sub",
    ]);
    scratch.commit("a submodule");
    let here = revision(folder.path(), "HEAD").unwrap();
    let why = "it lies in a submodule";
    assert_eq!(
        here.text("sub/cap.quillet"),
        Err(ReadError::Unreadable(why.into()))
    );
}

#[test]
fn each_way_to_have_no_revision_is_a_sentence() {
    let empty = folder();
    let nowhere = revision(empty.path(), "HEAD").unwrap_err();
    assert!(
        matches!(nowhere, HistoryError::NoRepository(_)),
        "{nowhere:?}"
    );
    let scratch = Scratch::init(empty.path());
    assert_eq!(
        revision(empty.path(), "HEAD").unwrap_err(),
        HistoryError::Unborn
    );
    scratch.write("cap.quillet", PART).commit("one");
    for odd in [
        "nobody",
        "--output=x",
        "-n",
        "",
        "main:cap.quillet",
        "a b\nc",
    ] {
        let unknown = revision(empty.path(), odd).unwrap_err();
        assert!(
            matches!(unknown, HistoryError::Unknown { shallow: false, .. }),
            "{odd}: {unknown:?}"
        );
        assert!(unknown.to_string().contains("git branch"), "{unknown}");
    }
    assert!(!empty.path().join("x").exists());

    let bare = folder();
    let from = empty.path().to_string_lossy().into_owned();
    let to = bare.path().join("bare.git");
    scratch.git(&["clone", "--quiet", "--bare", &from, &to.to_string_lossy()]);
    assert!(matches!(
        revision(&to, "HEAD").unwrap_err(),
        HistoryError::Bare(_)
    ));
}

#[test]
fn a_shallow_clone_says_that_it_is_one() {
    let (folder, clones) = (folder(), folder());
    let scratch = Scratch::init(folder.path());
    scratch.write("cap.quillet", "one").commit("first");
    scratch.write("cap.quillet", "two").commit("second");
    let from = format!("file://{}", folder.path().display());
    let clone = clones.path().join("clone");
    scratch.git(&[
        "clone",
        "--quiet",
        "--depth=1",
        &from,
        &clone.to_string_lossy(),
    ]);
    let unknown = revision(&clone, "HEAD~1").unwrap_err();
    assert!(
        unknown.to_string().contains("git fetch --unshallow"),
        "{unknown}"
    );
    assert_eq!(
        revision(&clone, "HEAD")
            .unwrap()
            .text("cap.quillet")
            .unwrap(),
        "two"
    );
}

#[test]
fn a_worktree_is_a_folder_like_any_other() {
    let (folder, trees) = (folder(), folder());
    let scratch = Scratch::init(folder.path());
    scratch.write("cap.quillet", PART).commit("first");
    let tree = trees.path().join("tree");
    scratch.git(&["worktree", "add", "--quiet", &tree.to_string_lossy()]);
    assert_eq!(
        revision(&tree, "HEAD")
            .unwrap()
            .text("cap.quillet")
            .unwrap(),
        PART
    );
}
