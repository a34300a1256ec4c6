//! How long a sheet takes, from the text on, and the page that follows a file as it is saved.

use criterion::{Criterion, criterion_group, criterion_main};
use quillet_export::draw::Paper;
use quillet_export::{live, sheet};
use quillet_model::{Design, Texts, load, resolve};
use std::path::Path;

/// The command's own allocator.
#[cfg(not(target_os = "macos"))]
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const HERON: &str = include_str!("../../../examples/heron.quillet");

fn design(text: &str) -> Design {
    let texts = Texts::default()
        .with("pen.quillet", text)
        .with(
            "saltings.quillet",
            include_str!("../../../examples/saltings.quillet"),
        )
        .with(
            "bought.quillet",
            include_str!("../../../examples/bought.quillet"),
        );
    resolve(&load(Path::new("pen.quillet"), &texts).expect("the text is there"))
}

/// The first pen's sheet, from the text.
fn written(text: &str, form: impl Fn(&sheet::Content) -> usize) -> usize {
    let design = design(text);
    let judged = quillet_check::examine(&design);
    let pen = design.pens.first().expect("there is a pen");
    form(&sheet::content(&design, pen, &judged, design.units()))
}

/// Twelve parts pressed into one another, each shaped and cut at both ends.
fn twelve() -> String {
    let part = |nth: usize| {
        format!(
            "part p{nth} from a to b {{\n  blank of reed rod 18\n  length 24\n  outside {{\n    \
             at 0 dia 14\n    at 10 dia 15 smooth\n    at 18 dia 14 smooth\n  }}\n  from a {{\n    \
             drill 9.3 to 9\n    thread M10x0.75 inside to 7\n  }}\n  from b {{\n    tenon for 6\n    \
             thread M10x0.75 outside for 4\n    relief 8.8 for 2 at 4\n  }}\n}}\n"
        )
    };
    let joint = |nth: usize| format!("  screw p{}.b into p{nth}.a\n", nth + 1);
    let parts: String = (0..12).map(part).collect();
    let joints: String = (0..11).map(joint).collect();
    format!("use \"saltings.quillet\"\n{parts}pen long {{\n{joints}}}\n")
}

fn benches(criterion: &mut Criterion) {
    let pdf = |it: &sheet::Content| sheet::pdf(it, Paper::A4).len();
    let html = |it: &sheet::Content| sheet::html(it, Paper::A4).len();
    assert!(written(HERON, pdf) < 400_000 && written(HERON, html) < 500_000);
    criterion.bench_function("Heron's sheet as PDF, from the text", |it| {
        it.iter(|| written(HERON, pdf))
    });
    criterion.bench_function("Heron's sheet as HTML, from the text", |it| {
        it.iter(|| written(HERON, html))
    });
    let twelve = twelve();
    assert_eq!(design(&twelve).pens[0].parts.len(), 12);
    criterion.bench_function("a sheet of twelve parts as PDF, from the text", |it| {
        it.iter(|| written(&twelve, pdf))
    });
    criterion.bench_function("the live page of Heron, from the text", |it| {
        it.iter(|| {
            let design = design(HERON);
            let found = quillet_check::check(&design);
            live::body(&design, &found).len()
        })
    });
}

criterion_group!(all, benches);
criterion_main!(all);
