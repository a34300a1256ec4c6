//! How long a check takes: one pen warm, files of a thousand and ten thousand lines, a process.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use quillet_model::{Texts, load, resolve};
use std::fmt::Write;
use std::path::Path;
use std::process::Command;

/// The command's own allocator.
#[cfg(not(target_os = "macos"))]
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const HERON: &str = include_str!("../../../examples/heron.quillet");
const SALTINGS: &str = include_str!("../../../examples/saltings.quillet");
const BOUGHT: &str = include_str!("../../../examples/bought.quillet");

/// What a pen uses, read already.
fn used() -> Texts {
    Texts::default()
        .with("saltings.quillet", SALTINGS)
        .with("bought.quillet", BOUGHT)
}

/// Lexes, parses, resolves and checks, all from the text; how much was found.
fn check(text: &str) -> usize {
    check_beside(used(), text)
}

/// The same beside files that have been read.
fn check_beside(used: Texts, text: &str) -> usize {
    let texts = used.with("pen.quillet", text);
    let loaded = load(Path::new("pen.quillet"), &texts).expect("the text is there");
    quillet_check::check(&resolve(&loaded)).len()
}

/// Heron's parts and its first pen over and over, each under its own names.
fn generated(lines: usize) -> String {
    let (head, rest) = HERON.split_at(HERON.find("part cap").expect("Heron has a cap"));
    let rest = &rest[..rest.find("pen heron-ida").expect("Heron has a variant")];
    let mut text = head.to_owned();
    for nth in 0..lines / rest.lines().count() {
        let mut one = rest.to_owned();
        for name in ["cap", "barrel", "section"] {
            one = one.replace(&format!("part {name} "), &format!("part {name}-{nth} "));
            one = one.replace(&format!(" {name}."), &format!(" {name}-{nth}."));
        }
        write!(
            text,
            "{}",
            one.replace("pen heron ", &format!("pen heron-{nth} "))
        )
        .ok();
    }
    text
}

/// So many joints one behind the other in one pen.
fn chained(joints: usize) -> String {
    let part = |nth: usize| {
        format!(
            "part p{nth} from a to b {{\n  blank of acrylic rod 14\n  length 12\n  outside dia 10\n  \
             from a {{\n    bore 6.05 to 5\n  }}\n  from b {{\n    tenon 6 for 4\n  }}\n}}\n"
        )
    };
    let joint = |nth: usize| format!("  press p{}.b into p{nth}.a\n", nth + 1);
    let parts: String = (0..=joints).map(part).collect();
    let joints: String = (0..joints).map(joint).collect();
    format!("{parts}pen long {{\n{joints}}}\n")
}

/// A part with so many lines of cuts from one end.
fn cut_over_and_over(cuts: usize, line: impl Fn(usize) -> String) -> String {
    let lines: String = (0..cuts)
        .map(|nth| format!("    {}\n", line(nth)))
        .collect();
    format!(
        "part p from a to b {{\n  blank of acrylic rod 20\n  length 450\n  outside dia 18\n  \
         from a {{\n{lines}  }}\n}}\n"
    )
}

fn cuts(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("check cuts of one part, one thread");
    group.sample_size(10);
    for count in [1_000, 10_000] {
        let at_mm = |nth: usize| 1.0 + nth as f64 * 0.04;
        let groove = |nth| format!("groove 15 for 0.02 at {:.3}", at_mm(nth));
        let kinds = [
            ("grooves", cut_over_and_over(count, groove)),
            (
                "equal drills",
                cut_over_and_over(count, |_| "drill 8 to 20".to_owned()),
            ),
        ];
        group.throughput(Throughput::Elements(count as u64));
        for (name, text) in kinds {
            group.bench_function(format!("{count} {name}"), |it| it.iter(|| check(&text)));
        }
    }
    group.finish();
}

/// A curved part over a bore with so many cuts from its side: holes, blind slots and flats in turn.
fn cut_from_the_side(cuts: u32) -> String {
    let line = |nth: u32| {
        let (at_mm, clock) = (3.0 + 0.9 * f64::from(nth), nth * 37 % 360);
        let (from, to) = (at_mm - 0.3, at_mm + 0.3);
        match nth % 3 {
            0 => format!("    drill 0.6 at {at_mm:.1} clock {clock}\n"),
            1 => format!("    slot 0.5 to 0.5 at {from:.1}..{to:.1} indexed 3 clock {clock}\n"),
            _ => format!("    flat deep 0.2 at {from:.1}..{to:.1} indexed 6\n"),
        }
    };
    let lines: String = (0..cuts).map(line).collect();
    format!(
        "part p from a to b {{\n  blank of acrylic rod 20\n  length {length:.1}\n  outside {{\n    at 0 dia 16\n    \
         at b dia 12 smooth\n  }}\n  side {{\n{lines}  }}\n  from a {{\n    drill 7 through\n  }}\n}}\n",
        length = 6.0 + 0.9 * f64::from(cuts)
    )
}

fn sides(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("check cuts from the side of one part, one thread");
    for count in [0, 100] {
        let text = cut_from_the_side(count);
        group.bench_function(format!("{count} cuts"), |it| it.iter(|| check(&text)));
    }
    group.finish();
}

fn benches(criterion: &mut Criterion) {
    assert_eq!(check(HERON), 0, "Heron is clean");
    criterion.bench_function("check Heron, warm, one thread", |it| {
        it.iter(|| check(HERON))
    });
    let before = used();
    criterion.bench_function("check Heron, its bench read before, one thread", |it| {
        it.iter(|| check_beside(before.clone(), HERON))
    });
    let mut group = criterion.benchmark_group("check parts and pens, one thread");
    for lines in [1_000, 10_000] {
        let text = generated(lines);
        assert_eq!(check(&text), 0, "as clean as Heron");
        group.sample_size(20);
        group.throughput(Throughput::Elements(text.lines().count() as u64));
        group.bench_function(format!("{lines} lines"), |it| it.iter(|| check(&text)));
    }
    group.finish();
    let heron = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/heron.quillet");
    let mut group = criterion.benchmark_group("check joints of one pen, one thread");
    for joints in [100, 1_000] {
        let text = chained(joints);
        group.sample_size(10);
        group.throughput(Throughput::Elements(joints as u64));
        group.bench_function(format!("{joints} joints"), |it| it.iter(|| check(&text)));
    }
    group.finish();
    criterion.bench_function("quillet check Heron, the whole process", |it| {
        it.iter(|| {
            let mut command = Command::new(env!("CARGO_BIN_EXE_quillet"));
            command
                .arg("check")
                .arg(&heron)
                .output()
                .expect("the binary runs")
        });
    });
    cuts(criterion);
    sides(criterion);
    folder(criterion);
}

/// A folder of pens that all use one bench and one file of bought parts.
fn folder(criterion: &mut Criterion) {
    const FILES: u64 = 500;
    let folder = tempfile::tempdir().expect("a folder can be made");
    let write = |name: String, text: &str| {
        std::fs::write(folder.path().join(name), text).expect("a file can be written");
    };
    write("saltings.quillet".into(), SALTINGS);
    write("bought.quillet".into(), BOUGHT);
    for nth in 0..FILES {
        write(format!("pen-{nth:03}.quillet"), HERON);
    }
    let mut group = criterion.benchmark_group("quillet check, a folder");
    group.sample_size(10);
    // Each file holds Heron and its variant.
    group.throughput(Throughput::Elements(2 * FILES));
    group.bench_function("1000 pens", |it| {
        it.iter(|| {
            let mut command = Command::new(env!("CARGO_BIN_EXE_quillet"));
            let output = command.arg("check").arg(folder.path()).output();
            assert!(output.expect("the binary runs").status.success());
        });
    });
    group.finish();
}

criterion_group!(all, benches);
criterion_main!(all);
