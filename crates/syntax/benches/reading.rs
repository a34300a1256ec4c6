//! How long texts take to read and to format.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use quillet_syntax::{FileId, format, lex, parse};
use std::hint::black_box;

const PART: &str = include_str!("../src/parse/tests/heron.quillet");

/// A text of about so many lines.
fn lines(count: usize) -> String {
    PART.repeat(count / PART.lines().count() + 1)
}

fn reading(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("reading");
    let texts = [
        ("a pen", PART.to_owned()),
        ("10 000 lines", lines(10_000)),
        ("100 000 lines", lines(100_000)),
        (
            "1 MB of stray words",
            "at mouth ) drill 3 \"\n".repeat(50_000),
        ),
        ("1 MB of braces", "{ } } {\n".repeat(128_000)),
        ("1 MB on a line", "nib ".repeat(250_000)),
        ("1 MB of slips", "prt dril 3\n".repeat(90_000)),
    ];
    group.sample_size(10);
    for (name, text) in texts {
        group.throughput(Throughput::Bytes(text.len() as u64));
        group.bench_function(format!("lex {name}"), |bencher| {
            bencher.iter(|| lex(FileId(0), black_box(&text)));
        });
        group.bench_function(format!("parse {name}"), |bencher| {
            bencher.iter(|| parse(FileId(0), black_box(&text)));
        });
        group.bench_function(format!("format {name}"), |bencher| {
            bencher.iter(|| format(black_box(&text)));
        });
    }
    group.finish();
}

criterion_group!(benches, reading);
criterion_main!(benches);
