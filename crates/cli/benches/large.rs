//! How long the command takes over files of sizes that nobody writes by hand.
#![allow(clippy::expect_used, reason = "a bench")]

use criterion::{Criterion, criterion_group, criterion_main};
use std::path::Path;
use std::process::Command;

/// A part of its own length, so that no two are alike.
fn part(nth: usize) -> String {
    format!(
        "part p{nth} from a to b {{\n  blank of acrylic rod 14\n  length 12.{nth:04}\n  outside dia 10\n  \
         from a {{\n    bore 6.05 to 5\n  }}\n  from b {{\n    tenon 6 for 4\n  }}\n}}\n"
    )
}

fn grooves(count: usize) -> String {
    let groove = |nth: usize| format!("    groove 15 for 0.02 at {:.3}\n", 1.0 + nth as f64 * 0.04);
    let all: String = (0..count).map(groove).collect();
    format!(
        "part p from a to b {{\n  blank of acrylic rod 20\n  length 450\n  outside dia 18\n  \
         from a {{\n{all}  }}\n}}\n"
    )
}

/// Bores, each deeper and narrower than the one before.
fn bores(count: usize) -> String {
    let bore = |nth: usize| {
        let (dia, deep) = (15.0 - nth as f64 * 0.001, 1.0 + nth as f64 * 0.04);
        format!("    bore {dia:.3} to {deep:.3}\n")
    };
    let all: String = (0..count).map(bore).collect();
    format!(
        "part p from a to b {{\n  blank of acrylic rod 20\n  length 450\n  outside dia 18\n  \
         from a {{\n{all}  }}\n}}\n"
    )
}

/// A pen, which a sheet is of: the grooved part and a plug.
fn grooved_pen(count: usize) -> String {
    let plug = "part q from a to b {\n  blank of acrylic rod 14\n  length 30\n  outside dia 10\n  \
                from a {\n    tenon 5 for 3\n  }\n}\n";
    let pen = "pen long {\n  press q.a into p.b\n}\n";
    format!("{}{plug}{pen}", grooves(count))
}

fn joints(count: usize) -> String {
    let parts: String = (0..=count)
        .map(|nth| part(nth).replacen(&format!("12.{nth:04}"), "12", 1))
        .collect();
    let press = |nth: usize| format!("  press p{}.b into p{nth}.a\n", nth + 1);
    let joints: String = (0..count).map(press).collect();
    format!("{parts}pen long {{\n{joints}}}\n")
}

/// A name, its text, and each time the command and what follows the file.
fn cases() -> Vec<(&'static str, String, Vec<Vec<&'static str>>)> {
    let check = || vec![vec!["check"]];
    vec![
        ("1000 joints", joints(1_000), check()),
        ("50000 equal names", "let a = 1\n".repeat(50_000), check()),
        (
            "100000 unclosed parts",
            "part a {\n".repeat(100_000),
            check(),
        ),
        ("100000 braces", "{".repeat(100_000), check()),
        (
            "1000000 lets in a line",
            "let a = 1;".repeat(1_000_000),
            check(),
        ),
        (
            "10000 grooves",
            grooves(10_000),
            vec![vec!["check"], vec!["draw", "--part", "p", "-o", "p.svg"]],
        ),
        (
            "10000 bores",
            bores(10_000),
            vec![vec!["measure", "--full"]],
        ),
        (
            "a pen with 10000 grooves",
            grooved_pen(10_000),
            vec![vec!["sheet", "-o", "p.html"], vec!["sheet", "-o", "p.pdf"]],
        ),
        (
            "10000 parts",
            (0..10_000).map(part).collect(),
            vec![
                vec!["check"],
                vec!["cut"],
                vec!["solid", "-o", "p.step"],
                vec!["solid", "-o", "p.stl"],
                vec!["solid", "-o", "p.3mf"],
            ],
        ),
    ]
}

fn command(folder: &Path, args: &[&str]) {
    let (name, rest) = args.split_first().expect("a command");
    let mut command = Command::new(env!("CARGO_BIN_EXE_quillet"));
    command
        .current_dir(folder)
        .args([name, "large.quillet"])
        .args(rest);
    let output = command.output().expect("the binary runs");
    assert!(
        output.status.code().is_some_and(|code| code < 2),
        "{args:?}"
    );
}

fn large(criterion: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut group = criterion.benchmark_group("large files, the whole process");
    group.sample_size(10);
    for (name, text, commands) in cases() {
        std::fs::write(folder.path().join("large.quillet"), text).expect("it can be written");
        for args in commands {
            let title = format!("{name}: {}", args.join(" "));
            group.bench_function(title, |it| it.iter(|| command(folder.path(), &args)));
        }
    }
    group.finish();
}

criterion_group!(all, large);
criterion_main!(all);
