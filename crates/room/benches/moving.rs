//! How long a moved number of Heron takes, and the room of all of them, one thread.
#![allow(clippy::expect_used, reason = "a bench")]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use quillet_check::examine;
use quillet_fixture::EXAMPLES;
use quillet_model::{Texts, load, resolve};
use quillet_room::spread::{Hands, USUAL_CASES, USUAL_SEED};
use quillet_room::{Numbers, Probe, Room};
use quillet_syntax::Severity;
use std::path::Path;

/// The command's own allocator.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn benches(criterion: &mut Criterion) {
    let texts: Texts = EXAMPLES.iter().copied().collect();
    let loaded = load(Path::new("heron.quillet"), &texts).expect("Heron is there");
    let design = resolve(&loaded);
    let examined = examine(&design);
    let probe = Probe::of(&loaded, (&design, &examined), None, Severity::Warning);
    let ida = Probe::of(
        &loaded,
        (&design, &examined),
        Some("heron"),
        Severity::Warning,
    );
    let numbers = Numbers::of(&design);
    let number = |name: &str| numbers.find(&design, name).expect("Heron has it");
    let mut group = criterion.benchmark_group("one changed number of Heron");
    group.throughput(Throughput::Elements(1));
    for name in ["cap.mouth.drill.to", "barrel.mouth.drill2.to", "grip"] {
        let number = number(name);
        group.bench_function(format!("{name}, read anew"), |it| {
            it.iter(|| probe.with(&[number.written(number.value + 0.001)]));
        });
        for (which, probe) in [("all pens", &probe), ("one pen", &ida)] {
            let mut nth = 0.0;
            group.bench_function(format!("{name}, {which}"), |it| {
                it.iter(|| {
                    nth = (nth + 1.0) % 40.0;
                    probe.new_with(&[(number, number.value + nth * 0.001)])
                });
            });
        }
    }
    group.finish();
    let mut group = criterion.benchmark_group("room of Heron, one thread");
    group.sample_size(10);
    group.bench_function("cap.mouth.drill.to, cold", |it| {
        it.iter(|| {
            let numbers = Numbers::of(&design);
            let number = numbers
                .find(&design, "cap.mouth.drill.to")
                .expect("Heron has it");
            Room::of(&probe, &numbers, number)
        });
    });
    group.throughput(Throughput::Elements(numbers.all().len() as u64));
    group.bench_function("all numbers", |it| {
        it.iter(|| {
            let rooms = numbers
                .all()
                .iter()
                .map(|it| Room::of(&probe, &numbers, it));
            rooms.filter(Room::has_room).count()
        });
    });
    group.finish();
}

fn spread(criterion: &mut Criterion) {
    let texts: Texts = EXAMPLES.iter().copied().collect();
    let loaded = load(Path::new("heron.quillet"), &texts).expect("Heron is there");
    let design = resolve(&loaded);
    let pen = design.pen("heron").expect("Heron is there");
    let mut group = criterion.benchmark_group("spread of Heron, one thread");
    group.sample_size(10);
    group.throughput(Throughput::Elements(u64::from(USUAL_CASES)));
    group.bench_function("2,000 cases", |it| {
        it.iter(|| {
            let cases = (USUAL_CASES, USUAL_SEED);
            let hands = Hands::of(&design, pen, cases, Severity::Warning).expect("Heron is sound");
            let mut workplace = hands.workplace();
            let made = hands.cases().map(|nth| hands.case(&mut workplace, nth));
            made.filter(|it| it.found.is_empty()).count()
        });
    });
    group.finish();
}

criterion_group!(all, benches, spread);
criterion_main!(all);
