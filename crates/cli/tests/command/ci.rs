//! The files by which a forge checks: what they call works, and says what it is to say.

use crate::run::{command, ended, repository, run, stderr};
use quillet_fixture::Scratch;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const FORGES: [(&str, &str); 3] = [
    ("github", ".github/workflows/quillet.yml"),
    ("gitlab", ".gitlab-ci.yml"),
    ("forgejo", ".forgejo/workflows/quillet.yml"),
];

/// The lines of a file that call quillet, as a shell is given them.
fn calls(text: &str) -> Vec<&str> {
    let lines = text.lines().map(str::trim);
    let lines = lines.filter_map(|it| it.strip_prefix("- "));
    let lines = lines.map(|it| it.strip_prefix("run: ").unwrap_or(it));
    lines.filter(|it| it.starts_with("quillet ")).collect()
}

/// A line run by a shell as a forge runs it, the command at hand.
fn run_line(folder: &Path, line: &str) -> Output {
    let binary = command(folder).get_program().to_owned();
    let binaries = Path::new(&binary).parent().unwrap().to_owned();
    let path = std::env::var("PATH").unwrap();
    Command::new("sh")
        .args(["-e", "-c", line])
        .current_dir(folder)
        .env("BASE", "HEAD~1")
        .env("PATH", format!("{}:{path}", binaries.display()))
        .output()
        .unwrap()
}

#[test]
fn what_a_forge_calls_works_and_keeps_its_exit_codes() {
    for (forge, name) in FORGES {
        let folder = repository("");
        let output = run(folder.path(), &["new", "--ci", forge]);
        assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
        let text = fs::read_to_string(folder.path().join(name)).unwrap();
        assert!(text.contains("QUILLET_INSTALL"), "{forge}");
        let scratch = Scratch {
            folder: folder.path(),
        };
        fs::remove_file(folder.path().join("knot.quillet")).unwrap();
        scratch.commit("without Knot");
        let saltings = folder.path().join("saltings.quillet");
        let tools = fs::read_to_string(&saltings).unwrap();
        fs::write(
            &saltings,
            tools.replace("M9x0.75 lead 2", "M9x0.75 lead 2.6"),
        )
        .unwrap();
        scratch.commit("another tap");
        let lines = calls(&text);
        assert_eq!(lines.len(), 3, "{lines:?}");
        let codes = lines
            .iter()
            .map(|it| run_line(folder.path(), it).status.code());
        let codes: Vec<_> = codes.collect();
        assert_eq!(codes, [Some(0), Some(0), Some(1)], "{forge}");
        let says = fs::read_to_string(folder.path().join("compare.md")).unwrap();
        assert!(says.contains("no-room-for-tap"), "{says}");
        let log = fs::read_to_string(folder.path().join("check.sarif")).unwrap();
        let log: serde_json::Value = serde_json::from_str(&log).unwrap();
        assert_eq!(log["version"], "2.1.0");
        let again = ended(&run(folder.path(), &["new", "--ci", forge]));
        assert_eq!(again.0, Some(2));
        assert!(again.2.contains("is there already"), "{}", again.2);
    }
}
