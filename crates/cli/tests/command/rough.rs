//! Rough handling: what is no file, what cannot be read or written, and being ended.

mod ended;

use crate::run::{command, json, run, run_fed, stderr, stdout};
use std::fs;

use std::os::unix::fs::symlink;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

const SOUND: &str = "let grip = 11.4\n";

fn pipe(path: &Path) {
    let made = Command::new("mkfifo").arg(path).status().unwrap();
    assert!(made.success());
}

/// What a file that uses `path` is told; at once, so that nothing was waited for.
fn used(folder: &Path, path: &str) -> String {
    let begun = Instant::now();
    fs::write(folder.join("pen.quillet"), format!("use \"{path}\"\n")).unwrap();
    let output = run(folder, &["check", "pen.quillet", "--format", "json"]);
    assert!(begun.elapsed() < Duration::from_secs(10));
    assert_eq!(output.status.code(), Some(1), "{path}: {output:?}");
    let report = json(&output);
    let finding = &report["findings"][0];
    assert_eq!(finding["rule"], "missing-file", "{report}");
    finding["message"].as_str().unwrap().to_owned()
}

#[test]
fn what_is_no_file_is_not_used_and_not_waited_for() {
    let folder = tempfile::tempdir().unwrap();
    pipe(&folder.path().join("pipe.quillet"));
    fs::create_dir(folder.path().join("folder")).unwrap();
    let big = fs::File::create(folder.path().join("big.quillet")).unwrap();
    big.set_len(16 * 1024 * 1024 + 1).unwrap();
    for (path, why) in [
        ("pipe.quillet", "it is a device or a pipe, not a file"),
        ("folder", "it is a folder, not a file"),
        (".", ". cannot be used: it is a folder, not a file"),
        ("", ". cannot be used: it is a folder, not a file"),
        ("big.quillet", "it is longer than 16 MB"),
        ("/dev/zero", "it is a device or a pipe, not a file"),
    ] {
        let reported = used(folder.path(), path);
        assert!(reported.contains(why), "{path}: {reported}");
    }
}

#[test]
fn one_bad_entry_keeps_no_other_from_being_checked() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.quillet"), SOUND).unwrap();
    fs::create_dir(folder.path().join("z")).unwrap();
    fs::write(folder.path().join("z/b.quillet"), SOUND).unwrap();
    symlink("nowhere", folder.path().join("dangling")).unwrap();
    symlink("round", folder.path().join("round")).unwrap();
    // Editors leave a link that leads nowhere beside a file that is being edited.
    symlink("me@here.1", folder.path().join(".#a.quillet")).unwrap();
    pipe(&folder.path().join("pipe.quillet"));
    let output = run(folder.path(), &["check", ".", "missing.quillet"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(stdout(&output).contains("2 files checked"), "{output:?}");
    let rendered = stderr(&output);
    assert_eq!(rendered.lines().count(), 4, "{rendered}");
    for name in ["./dangling", "./round", "./pipe.quillet", "missing.quillet"] {
        assert!(
            rendered.contains(&format!("quillet: {name}: ")),
            "{rendered}"
        );
    }
    let output = run(folder.path(), &["format", "."]);
    assert_eq!(
        (output.status.code(), stderr(&output)),
        (
            Some(2),
            rendered
                .lines()
                .take(3)
                .map(|line| format!("{line}\n"))
                .collect()
        )
    );
}

#[test]
fn what_a_shell_hands_over_is_read() {
    let folder = tempfile::tempdir().unwrap();
    let output = run_fed(folder.path(), &["check", "/dev/stdin"], SOUND.as_bytes());
    assert!(stdout(&output).contains("1 file checked"), "{output:?}");
}

/// One of each way to print.
const PRINTED: [&[&str]; 13] = [
    &["check", "pen.quillet"],
    &["check", "pen.quillet", "--format", "json"],
    &["measure", "pen.quillet"],
    &["measure", "pen.quillet", "--profiles"],
    &["tools", "pen.quillet"],
    &["cut", "pen.quillet", "--format", "json"],
    &["explain"],
    &["thread", "M10"],
    &["thread", "M10", "--format", "json"],
    &["draw", "pen.quillet", "-o", "pen.pdf"],
    &["format", "--check", "crowded.quillet"],
    &["manual", "-o", "-"],
    &["--help"],
];

/// What pours into a pipe by its name.
const POURED: &[&str] = &["manual", "-o", "/dev/stdout"];

fn with_a_pen() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let pen = include_str!("../../src/starting/fountain.quillet");
    fs::write(folder.path().join("pen.quillet"), pen).unwrap();
    fs::write(folder.path().join("crowded.quillet"), "let  a=1\n").unwrap();
    folder
}

#[test]
#[cfg(target_os = "linux")]
fn output_that_cannot_be_written_is_told() {
    let folder = with_a_pen();
    for args in PRINTED {
        let full = fs::OpenOptions::new()
            .write(true)
            .open("/dev/full")
            .unwrap();
        let output = command(folder.path())
            .args(args)
            .stdout(full)
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(2), "{args:?}");
        let rendered = stderr(&output);
        assert!(
            rendered.contains("quillet: standard output: "),
            "{args:?}: {rendered}"
        );
    }
}

#[test]
fn a_reader_that_has_gone_is_no_failure() {
    let folder = with_a_pen();
    for args in PRINTED.into_iter().chain([POURED]) {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let (no_reader, rendered) = std::io::pipe().unwrap();
        drop(no_reader);
        let status = command(folder.path())
            .args(args)
            .stdout(writer)
            .stderr(rendered)
            .status()
            .unwrap();
        let verdict = if args.contains(&"--check") { 1 } else { 0 };
        assert_eq!(status.code(), Some(verdict), "{args:?}");
    }
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let output = command(folder.path())
        .args(["check", "none.quillet"])
        .stderr(writer)
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
}

#[test]
fn nothing_that_steers_a_terminal_is_printed() {
    let folder = tempfile::tempdir().unwrap();
    let title = "\u{1b}[2J\u{9b}31m\u{7}\u{202e}";
    let pen = include_str!("../../src/starting/fountain.quillet")
        .replace("\"My pen\"", &format!("\"{title}\""))
        .replace("drill 12.2", &format!("drill 15.9 -- {title}"));
    fs::write(folder.path().join("pen\u{1b}c.quillet"), &pen).unwrap();
    for args in [
        &["check", "pen\u{1b}c.quillet"][..],
        &["check", "pen\u{1b}c.quillet", "--format", "json"],
        &["measure", "pen\u{1b}c.quillet"],
        &["measure", "pen\u{1b}c.quillet", "--format", "json"],
        &["tools", "pen\u{1b}c.quillet"],
        &["cut", "pen\u{1b}c.quillet"],
        &["check", "no\u{1b}c.quillet"],
        &["sheet", "pen\u{1b}c.quillet"],
    ] {
        let output = run(folder.path(), args);
        let all = stdout(&output) + &stderr(&output);
        assert!(!all.is_empty());
        let steers = |letter: char| letter.is_control() && letter != '\n' || letter == '\u{202e}';
        assert!(!all.contains(steers), "{args:?}: {all:?}");
    }
}

#[test]
fn a_device_is_written_into_and_never_replaced() {
    let folder = with_a_pen();
    let device = folder.path().join("out.pdf");
    symlink("/dev/null", &device).unwrap();
    let output = run(folder.path(), &["draw", "pen.quillet", "-o", "out.pdf"]);
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    assert_eq!(fs::read_link(&device).unwrap(), Path::new("/dev/null"));
    assert!(!fs::metadata("/dev/null").unwrap().is_file());
}

#[test]
fn standard_output_is_a_place_to_write_to() {
    let folder = with_a_pen();
    let before = fs::read_dir(folder.path()).unwrap().count();
    // A pipe, which has no path of its own.
    for place in ["-", "/dev/stdout"] {
        let output = run(folder.path(), &["manual", "-o", place]);
        assert_eq!(output.status.code(), Some(0), "{place}: {output:?}");
        assert!(stdout(&output).starts_with("<!doctype html>"), "{place}");
        assert!(stdout(&output).ends_with("</html>"), "{place}");
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), before);
}

#[test]
fn a_file_that_may_not_grow_so_long_is_told_and_not_left() {
    let folder = with_a_pen();
    let before = fs::read_dir(folder.path()).unwrap().count();
    let program = command(folder.path()).get_program().to_owned();
    let output = Command::new("sh")
        .current_dir(folder.path())
        // Blocks of 512 bytes; the manual takes hundreds of them.
        .args(["-c", "ulimit -f 8; exec \"$0\" manual -o manual.html"])
        .arg(program)
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2), "{output:?}");
    assert!(stderr(&output).contains("manual.html: File too large"));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), before);
}

#[test]
fn a_mesh_is_no_finer_than_it_can_be_made() {
    let folder = with_a_pen();
    for reported in ["0.0009", "1e-9", "0", "-1", "1.1", "NaN", "inf"] {
        let tolerance = format!("--tolerance={reported}");
        let output = run(folder.path(), &["solid", "pen.quillet", &tolerance]);
        assert_eq!(output.status.code(), Some(2), "{reported}");
        assert!(stderr(&output).contains("from 0.001 to 1 mm"), "{output:?}");
    }
    let args = [
        "solid",
        "pen.quillet",
        "--part",
        "cap",
        "-o",
        "cap.stl",
        "--tolerance=0.001",
    ];
    assert_eq!(run(folder.path(), &args).status.code(), Some(0));
}

/// Where work grows with the square of the size these take minutes, not a second.
#[test]
fn large_files_are_told_of_in_no_more_time_than_they_are_large() {
    let folder = tempfile::tempdir().unwrap();
    for (text_of, rendered) in [
        ("let a = 1\n".repeat(20_000), "1 file checked: 1001 errors"),
        ("let a = 1; ".repeat(20_000), "1 file checked: 1001 errors"),
        ("{".repeat(100_000), "1 file checked: "),
    ] {
        fs::write(folder.path().join("large.quillet"), &text_of).unwrap();
        let output = run(folder.path(), &["check", "large.quillet"]);
        assert_eq!(output.status.code(), Some(1));
        let reported = stdout(&output);
        assert!(reported.contains(rendered), "{:.300}", reported);
    }
}
