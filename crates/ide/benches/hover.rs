//! How long the hover of one of Heron's numbers takes, nothing known before: read, resolved, checked, its
//! room and what it moves; one thread.
#![allow(clippy::expect_used, reason = "a bench")]

use criterion::{Criterion, criterion_group, criterion_main};
use quillet_fixture::EXAMPLES;
use quillet_ide::{Cursor, Workspace};
use std::path::Path;

/// The command's own allocator.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn benches(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("hover of a number of Heron, cold");
    group.sample_size(20);
    let heron = EXAMPLES.iter().find(|it| it.0 == "heron.quillet");
    let heron = heron.expect("Heron is there").1;
    for (name, before, number) in [
        ("cap.mouth.drill.to", "drill 12.2", "54"),
        ("barrel.mouth.drill2.to", "drill 8.0", "67"),
        ("grip", "let grip", "11.4"),
    ] {
        let line = heron.find(before).expect("Heron has it");
        let offset = line + heron[line..].find(number).expect("Heron has it");
        group.bench_function(name, |it| {
            it.iter(|| {
                let mut workspace = Workspace::default();
                for (name, text) in EXAMPLES {
                    workspace.set(&Path::new("/bench").join(name), (*text).into());
                }
                let snapshot = workspace.snapshot();
                let path = Path::new("/bench/heron.quillet");
                let analysis = snapshot.analysis(path, &|| false).expect("Heron is there");
                let cursor = Cursor::at(&analysis, offset).expect("it lies in Heron");
                let found = quillet_ide::hover(&snapshot, cursor).expect("a number is told");
                assert!(found.text.contains(" more: "), "{}", found.text);
            });
        });
    }
    group.finish();
}

criterion_group!(all, benches);
criterion_main!(all);
