//! `quillet format` as a process.

use crate::run::{ended, run, run_fed};
use std::fs;
use std::path::Path;
use std::process::Output;

const CROWDED: &str = "let  grip=11.4 ; let body=reed\r\n";
const SPREAD: &str = "let grip = 11.4\r\nlet body = reed\r\n";

fn format(folder: &Path, args: &[&str]) -> Output {
    run(folder, &[&["format"], args].concat())
}

#[test]
fn a_file_is_brought_into_form_once() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("dunlin.quillet");
    fs::write(&file, CROWDED).unwrap();
    let checked = ended(&format(folder.path(), &["--check", "dunlin.quillet"]));
    assert_eq!(
        checked,
        (
            Some(1),
            "dunlin.quillet would change\n".into(),
            String::new()
        )
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), CROWDED);
    let first = ended(&format(folder.path(), &["dunlin.quillet"]));
    assert_eq!(
        first,
        (Some(0), "dunlin.quillet formatted\n".into(), String::new())
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), SPREAD);
    let nothing = (Some(0), String::new(), String::new());
    assert_eq!(ended(&format(folder.path(), &["dunlin.quillet"])), nothing);
    assert_eq!(ended(&format(folder.path(), &["--check", "."])), nothing);
    let names: Vec<_> = fs::read_dir(folder.path()).unwrap().collect();
    assert_eq!(names.len(), 1, "nothing is left beside the file: {names:?}");
}

/// Both versions of a merge: neither is taken, and whoever formats before a commit is stopped.
#[test]
fn a_file_with_an_unfinished_merge_is_left_alone_and_ends_with_1() {
    const MERGE: &str =
        "let a   =   1\n<<<<<<< mine\nlet  b = 1\n=======\nlet  b = 2\n>>>>>>> theirs\n";
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("dunlin.quillet");
    fs::write(&file, MERGE).unwrap();
    fs::write(folder.path().join("stint.quillet"), CROWDED).unwrap();
    let message = ":2: [unfinished-merge] a merge is unfinished: lines 2 to 6";
    for args in [
        &["dunlin.quillet"][..],
        &["--check", "dunlin.quillet"],
        &["dunlin.quillet", "stint.quillet"],
    ] {
        let (code, out, aside) = ended(&format(folder.path(), args));
        assert_eq!(code, Some(1), "{args:?}");
        assert!(
            aside.starts_with(&format!("quillet: dunlin.quillet{message}")),
            "{aside}"
        );
        // The others are formatted all the same.
        assert_eq!(
            out.contains("stint.quillet formatted"),
            args.len() == 2 && args[0] != "--check"
        );
        assert_eq!(fs::read_to_string(&file).unwrap(), MERGE);
    }
    for (args, passed_on) in [(&["-"][..], MERGE), (&["--check", "-"], "")] {
        let args = [&["format"], args].concat();
        let (code, out, aside) = ended(&run_fed(folder.path(), &args, MERGE.as_bytes()));
        assert_eq!((code, &*out), (Some(1), passed_on));
        assert!(
            aside.starts_with(&format!("quillet: -{message}")),
            "{aside}"
        );
    }
}

#[test]
fn folders_are_looked_through_without_what_is_hidden() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["b/knot.quillet", "a.quillet", ".c/d.quillet", "b/notes.txt"] {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, CROWDED).unwrap();
    }
    let (code, out, _) = ended(&format(folder.path(), &[".", "a.quillet", "./a.quillet"]));
    assert_eq!(code, Some(0));
    assert_eq!(out.lines().count(), 2, "{out}");
    assert!(out.contains("b/knot.quillet formatted"), "{out}");
    assert_eq!(
        fs::read_to_string(folder.path().join(".c/d.quillet")).unwrap(),
        CROWDED
    );
    assert_eq!(
        fs::read_to_string(folder.path().join("b/notes.txt")).unwrap(),
        CROWDED
    );
}

#[cfg(unix)]
#[test]
fn permissions_and_links_stay_and_loops_end() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("whimbrel.quillet");
    fs::write(&file, CROWDED).unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
    symlink(&file, folder.path().join("link.quillet")).unwrap();
    symlink(folder.path(), folder.path().join("loop")).unwrap();
    let (code, out, err) = ended(&format(folder.path(), &["link.quillet"]));
    assert_eq!(
        (code, out.as_str(), err.as_str()),
        (Some(0), "link.quillet formatted\n", "")
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), SPREAD);
    assert_eq!(
        fs::metadata(&file).unwrap().permissions().mode() & 0o777,
        0o640
    );
    let link = fs::symlink_metadata(folder.path().join("link.quillet")).unwrap();
    assert!(link.file_type().is_symlink());
    assert_eq!(ended(&format(folder.path(), &["--check", "."])).0, Some(0));
}

#[test]
fn what_cannot_be_read_is_named() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("odd.quillet"), b"let a = 1\n\xff").unwrap();
    fs::create_dir(folder.path().join("empty")).unwrap();
    fs::write(folder.path().join("notes.txt"), CROWDED).unwrap();
    for (path, reason) in [
        ("odd.quillet", "odd.quillet: it is not UTF-8 text (byte 10)"),
        ("missing.quillet", "missing.quillet: no such file or folder"),
        ("empty", "empty: no *.quillet file in this folder"),
        ("notes.txt", "notes.txt: not a *.quillet file"),
    ] {
        let (code, out, err) = ended(&format(folder.path(), &[path]));
        assert_eq!((code, out.as_str()), (Some(2), ""), "{path}");
        assert!(err.contains(reason), "{err}");
    }
}

#[test]
fn standard_input_goes_to_standard_output() {
    let output = run_fed(Path::new("."), &["format", "-"], CROWDED.as_bytes());
    assert_eq!(ended(&output), (Some(0), SPREAD.into(), String::new()));
}

#[test]
fn the_examples_are_in_form() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let nothing = (Some(0), String::new(), String::new());
    assert_eq!(ended(&format(&root, &["--check", "examples"])), nothing);
}
