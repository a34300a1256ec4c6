//! Rough handling: what is no file, what cannot be read or written, and being ended.

use crate::run::{command, json, run, run_fed, stderr, stdout};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::os::unix::fs::symlink;
use std::path::Path;
use std::process::{Child, Command, Stdio};
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
const PRINTED: [&[&str]; 12] = [
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
    &["--help"],
];

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
    for args in PRINTED {
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

/// Ends a run of `format` over many files while one is being written, and says what it left.
fn ended_by(signal: &str) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    // Spaces that must go make each file long enough to be met in the middle.
    let crowded = "let  a=1\n".repeat(15_000);
    for number in 0..8 {
        fs::write(folder.path().join(format!("{number}.quillet")), &crowded).unwrap();
    }
    let mut child = command(folder.path())
        .args(["format", "."])
        .stdout(Stdio::null())
        .spawn()
        .unwrap();
    let left = || -> Vec<String> {
        let names = fs::read_dir(folder.path()).unwrap().map(|it| it.unwrap());
        let names = names.map(|it| it.file_name().into_string().unwrap());
        names.filter(|name| name.starts_with('.')).collect()
    };
    let begun = Instant::now();
    while left().is_empty() && child.try_wait().unwrap().is_none() {
        assert!(begun.elapsed() < Duration::from_secs(120));
        std::thread::sleep(Duration::from_micros(200));
    }
    Command::new("kill")
        .args([signal, &child.id().to_string()])
        .status()
        .unwrap();
    let status = child.wait().unwrap();
    assert!(!status.success() || signal == "-9", "{status}");
    let after = left();
    for number in 0..8 {
        let written = fs::read_to_string(folder.path().join(format!("{number}.quillet"))).unwrap();
        assert!(
            written.starts_with("let ") && written.ends_with("\n"),
            "whole or not at all"
        );
        assert!(written.len() == crowded.len() || written.lines().count() == 15_000);
    }
    if !after.is_empty() {
        run(folder.path(), &["format", "."]);
        assert_eq!(left(), Vec::<String>::new(), "the next run cleans up");
    }
    after
}

#[test]
fn temporary_files_do_not_outlive_a_signal() {
    assert_eq!(ended_by("-INT"), Vec::<String>::new());
    assert_eq!(ended_by("-TERM"), Vec::<String>::new());
}

#[test]
fn what_a_kill_leaves_is_swept_by_the_next_run() {
    // Whether it leaves anything is a matter of the moment; that it goes is not.
    ended_by("-9");
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.quillet"), "let  a=1\n").unwrap();
    fs::write(folder.path().join(".quillet-77-0"), "left").unwrap();
    run(folder.path(), &["format", "a.quillet"]);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
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

/// A page being served.
struct Served {
    child: Child,
    port: u16,
}

impl Served {
    fn of(folder: &Path, file: &str) -> Served {
        let mut child = command(folder)
            .args(["watch", file])
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap())
            .read_line(&mut line)
            .unwrap();
        let port = line
            .trim_end()
            .trim_end_matches('/')
            .rsplit(':')
            .next()
            .unwrap();
        Served {
            port: port.parse().unwrap(),
            child,
        }
    }

    fn page(&self) -> String {
        let mut connection = std::net::TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        let host = format!("GET / HTTP/1.1\r\nHost: localhost:{}\r\n\r\n", self.port);
        connection.write_all(host.as_bytes()).unwrap();
        let mut page = String::new();
        connection.read_to_string(&mut page).unwrap();
        page
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

#[test]
fn watch_follows_files_that_go_come_and_lie_elsewhere() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::write(
        at("pen.quillet"),
        "use \"bench.quillet\"\npart barrel { length grip }\n",
    )
    .unwrap();
    let served = Served::of(folder.path(), "pen.quillet");
    assert!(
        served
            .page()
            .contains("bench.quillet cannot be used: there is no such file")
    );
    // It comes later.
    fs::write(at("first"), "let grip = 11.4\n").unwrap();
    fs::write(at("other"), "let grup = 11.4\n").unwrap();
    let written = fs::metadata(at("first")).unwrap().modified().unwrap();
    let other = fs::File::options().write(true).open(at("other")).unwrap();
    other.set_modified(written).unwrap();
    symlink("first", at("bench.quillet")).unwrap();
    assert!(!served.page().contains("bench.quillet cannot"));
    assert!(!served.page().contains("grip is not known"));
    let sound = served.page();
    // It is pointed at another file of the same length, written at the same time.
    fs::remove_file(at("bench.quillet")).unwrap();
    symlink("other", at("bench.quillet")).unwrap();
    let pointed = served.page();
    assert_ne!(pointed, sound);
    assert!(pointed.contains("grup"), "{pointed}");
    // Both vanish and come back.
    fs::remove_file(at("bench.quillet")).unwrap();
    assert!(served.page().contains("bench.quillet cannot be used"));
    fs::rename(at("pen.quillet"), at("away")).unwrap();
    assert!(served.page().contains("there is no such file"));
    symlink("first", at("bench.quillet")).unwrap();
    fs::rename(at("away"), at("pen.quillet")).unwrap();
    assert!(!served.page().contains("there is no such file"));
}
