//! Being ended: files are written whole or not at all, and what is served or read ends in time.

use crate::run::{command, run};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::os::unix::fs::symlink;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

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
