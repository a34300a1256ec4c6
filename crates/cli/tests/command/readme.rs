//! The README shows a finding as the program prints it today, and what it says to type works.

use crate::run::{command, examples, run, stdout};
use anstyle_svg::{Term, WIN10_CONSOLE as PALETTE};
use std::path::PathBuf;

fn root() -> PathBuf {
    examples().join("..")
}

#[test]
fn the_finding_is_as_the_program_prints_it() {
    let mut check = command(&examples());
    let check = check.args(["check", "knot.quillet"]);
    let output = check.env("CLICOLOR_FORCE", "1").output().unwrap();
    let all = stdout(&output);
    let finding = all.split("\n\n").find(|it| it.contains("thin-wall"));
    let finding = finding.expect("the flawed pen has a thin wall");
    assert!(finding.contains('\u{1b}'), "it is coloured");
    let picture = Term::new().palette(PALETTE).render_svg(finding);
    let path = root().join("crates/cli/manual/pictures/finding.svg");
    if std::env::var_os("QUILLET_DRAW").is_some() {
        std::fs::write(&path, &picture).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept.replace("\r\n", "\n") == picture,
        "finding.svg is stale: run QUILLET_DRAW=1 cargo test -p quillet --test command readme"
    );
}

/// The arguments of a line of a shell that quotes with `"` alone.
fn arguments(line: &str) -> Vec<String> {
    let quoted = line.split('"').enumerate();
    let each = quoted.flat_map(|(index, text)| match index % 2 {
        0 => text.split_whitespace().map(str::to_owned).collect(),
        _ => vec![text.to_owned()],
    });
    each.collect()
}

/// Every command of the README in its order, in a repository with the examples; but for what goes on
/// until it is stopped.
#[test]
fn what_it_says_to_type_works() {
    let folder = tempfile::tempdir().unwrap();
    let copies = folder.path().join("examples");
    std::fs::create_dir(&copies).unwrap();
    for entry in std::fs::read_dir(examples()).unwrap() {
        let from = entry.unwrap().path();
        if from.is_file() {
            std::fs::copy(&from, copies.join(from.file_name().unwrap())).unwrap();
        }
    }
    for args in ["init", "add .", "commit -m Begin"] {
        let of = [
            "-c",
            "user.name=Bench",
            "-c",
            "user.email=bench@example.org",
        ];
        let mut git = std::process::Command::new("git");
        let git = git
            .args(of)
            .args(args.split(' '))
            .current_dir(folder.path());
        assert!(git.output().unwrap().status.success(), "git {args}");
    }
    let text = std::fs::read_to_string(root().join("README.md")).unwrap();
    let lines = text.lines().filter_map(|line| {
        let ours = ["quillet ", "cargo run --release -- "];
        let line = ours.iter().find_map(|it| line.strip_prefix(it))?;
        Some(line.split(" #").next()?.trim()).filter(|it| !it.starts_with("watch"))
    });
    let lines: Vec<&str> = lines.collect();
    assert!(lines.len() > 5, "{lines:?}");
    for line in lines {
        let output = run(folder.path(), &arguments(line));
        assert!(output.status.success(), "quillet {line}: {output:?}");
    }
}
