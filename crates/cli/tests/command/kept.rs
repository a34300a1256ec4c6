//! What files that are written keep: owner, mode, names; and what is done where there is no permission.

use crate::run::{command, ended, run};
use std::fs::{self, Permissions};
use std::os::unix::fs::{MetadataExt, PermissionsExt, chown, symlink};
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

const CROWDED: &str = "let  a=1\n";
const FORMATTED: &str = "let a = 1\n";
/// Whoever owns nothing, as a number that systems keep for it.
const NOBODY: u32 = 65_534;

fn mode(path: &Path, mode: u32) {
    fs::set_permissions(path, Permissions::from_mode(mode)).unwrap();
}

/// A folder that everybody may use, with a file of this mode.
fn with_a_file(of_mode: u32) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.quillet"), CROWDED).unwrap();
    mode(&folder.path().join("a.quillet"), of_mode);
    mode(folder.path(), 0o777);
    folder
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|it| it.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// Whether this process may do what only the system's owner may.
fn is_root(folder: &Path) -> bool {
    fs::metadata(folder).unwrap().uid() == 0
}

/// Runs as somebody whom permissions bind: the owner of the system is bound by none.
fn bound(folder: &Path, args: &[&str]) -> Output {
    if !is_root(folder) {
        return run(folder, args);
    }
    // The program itself may lie where only its owner looks. Another process copies it: a file that this one had open
    // for writing while another test began a process is busy until that process has begun.
    let program = tempfile::tempdir().unwrap();
    mode(program.path(), 0o755);
    let copy = program.path().join("quillet");
    let copied = Command::new("cp")
        .args([Path::new(env!("CARGO_BIN_EXE_quillet")), &copy])
        .status()
        .unwrap();
    assert!(copied.success());
    let mut command = Command::new(&copy);
    command
        .args(args)
        .current_dir(folder)
        .uid(NOBODY)
        .gid(NOBODY);
    command.output().unwrap()
}

#[test]
fn a_file_keeps_mode_owner_and_names() {
    let folder = with_a_file(0o640);
    let [file, other, link] =
        ["a.quillet", "b.quillet", "c.quillet"].map(|it| folder.path().join(it));
    let owner = match is_root(folder.path()) {
        true => (1234, 2345),
        false => (
            fs::metadata(&file).unwrap().uid(),
            fs::metadata(&file).unwrap().gid(),
        ),
    };
    chown(&file, Some(owner.0), Some(owner.1)).unwrap();
    mode(&file, 0o640);
    let kept = |path: &Path| {
        let about = fs::metadata(path).unwrap();
        (about.uid(), about.gid(), about.mode() & 0o7777)
    };
    let before = kept(&file);
    run(folder.path(), &["format", "a.quillet"]);
    assert_eq!(fs::read_to_string(&file).unwrap(), FORMATTED);
    assert_eq!(kept(&file), before);
    // By another name of it, and by a link to it.
    fs::hard_link(&file, &other).unwrap();
    symlink("a.quillet", &link).unwrap();
    for name in ["b.quillet", "c.quillet"] {
        fs::write(&file, CROWDED).unwrap();
        run(folder.path(), &["format", name]);
        assert_eq!(fs::read_to_string(&file).unwrap(), FORMATTED, "{name}");
        let number = |path: &Path| fs::metadata(path).unwrap().ino();
        assert_eq!(number(&file), number(&other), "{name}");
        assert_eq!(kept(&file), before, "{name}");
    }
    assert_eq!(fs::read_link(&link).unwrap(), Path::new("a.quillet"));
    assert_eq!(
        names(folder.path()),
        ["a.quillet", "b.quillet", "c.quillet"]
    );
}

#[test]
fn a_file_of_somebody_else_is_written_where_that_is_allowed_and_stays_theirs() {
    let folder = with_a_file(0o666);
    let file = folder.path().join("a.quillet");
    let owner = fs::metadata(&file).unwrap().uid();
    let (code, ..) = ended(&bound(folder.path(), &["format", "a.quillet"]));
    assert_eq!(code, Some(0));
    assert_eq!(fs::read_to_string(&file).unwrap(), FORMATTED);
    assert_eq!(fs::metadata(&file).unwrap().uid(), owner);
    assert_eq!(names(folder.path()), ["a.quillet"]);
}

#[test]
fn what_may_not_be_written_is_told_and_is_as_it_was() {
    // The file itself, then the folder that its new text would lie in meanwhile.
    for (of_file, of_folder) in [(0o444, 0o777), (0o666, 0o555)] {
        let folder = with_a_file(of_file);
        mode(folder.path(), of_folder);
        let (code, _, aside) = ended(&bound(folder.path(), &["format", "a.quillet"]));
        assert_eq!(
            (code, &*aside),
            (Some(2), "quillet: a.quillet: no permission\n")
        );
        let text = fs::read_to_string(folder.path().join("a.quillet")).unwrap();
        assert_eq!(text, CROWDED);
        assert_eq!(names(folder.path()), ["a.quillet"]);
        mode(folder.path(), 0o777);
    }
}

#[test]
fn a_folder_and_a_file_that_may_not_be_read_keep_nothing_else_from_being_checked() {
    let folder = with_a_file(0o644);
    let [closed, secret] = ["closed", "secret.quillet"].map(|it| folder.path().join(it));
    fs::create_dir(&closed).unwrap();
    fs::write(closed.join("b.quillet"), CROWDED).unwrap();
    fs::write(&secret, CROWDED).unwrap();
    mode(&closed, 0o000);
    mode(&secret, 0o000);
    let (code, printed, aside) = ended(&bound(folder.path(), &["check", "."]));
    mode(&closed, 0o755);
    assert_eq!(code, Some(2));
    assert!(printed.contains("1 file checked"), "{printed}");
    let mut told: Vec<&str> = aside.lines().collect();
    told.sort_unstable();
    assert_eq!(
        told,
        [
            "quillet: ./closed: no permission",
            "quillet: ./secret.quillet: it cannot be read: no permission"
        ]
    );
}

#[test]
fn a_pipe_gets_what_is_written_and_stays_a_pipe() {
    let folder = with_a_file(0o644);
    let pen = include_str!("../../src/starting/fountain.quillet");
    fs::write(folder.path().join("pen.quillet"), pen).unwrap();
    let pipe = folder.path().join("cap.svg");
    let made = Command::new("mkfifo").arg(&pipe).status().unwrap();
    assert!(made.success());
    let args = ["draw", "pen.quillet", "--part", "cap", "-o", "cap.svg"];
    let mut child = command(folder.path()).args(args).spawn().unwrap();
    let read = fs::read_to_string(&pipe).unwrap();
    assert!(child.wait().unwrap().success());
    assert!(read.ends_with("</svg>\n"), "{:.200}", read);
    assert!(!fs::symlink_metadata(&pipe).unwrap().is_file());
}
