//! What a bench says, resolved.

use quillet_geometry::Length;
use quillet_model::{Design, Texts, load, resolve};
use std::path::Path;

fn design(text: &str) -> Design {
    let texts = Texts::default().with("bench.quillet", text);
    resolve(&load(Path::new("bench.quillet"), &texts).expect("the text is there"))
}

#[test]
fn a_bench_is_what_its_lines_say() {
    let design = design(
        "bench shed {
           drills 7..8 step 0.5, #7 reach 90
           boring 8 reach 60
           boring 5 reach 30
           bushings 9.9 pilot 6.3
           taps M10x0.75 lead C
           dies M13x0.8 starts 3 lead 4
           saw kerf 1.2
           lathe 900, 250..500 bore 20 travel 60 screwcutting centres 400
         }",
    );
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    let bench = &design.benches[0];
    let sizes: Vec<_> = bench.drills.iter().map(|it| (it.dia, it.reach)).collect();
    let reach = Some(Length::mm(90.0));
    let wanted = [5.1054, 7.0, 7.5, 8.0].map(|mm| (Length::mm(mm), reach));
    assert_eq!(sizes, wanted);
    let bars: Vec<_> = bench.boring.iter().map(|bar| bar.enters).collect();
    assert_eq!(bars, [Length::mm(5.0), Length::mm(8.0)]);
    assert_eq!(bench.pilot, Some(Length::mm(6.3)));
    assert_eq!(bench.kerf, Some(Length::mm(1.2)));
    // DIN 2197: form C has two to three pitches of lead, from memory.
    assert_eq!(bench.taps[0].lead, Some(Length::mm(2.25)));
    assert_eq!(bench.dies[0].lead, Some(Length::mm(4.0)));
    let lathe = bench.lathe.as_ref().unwrap();
    assert_eq!(lathe.speeds_rev_min, [(250.0, 500.0), (900.0, 900.0)]);
    assert_eq!(
        (lathe.slowest_rev_min(), lathe.fastest_rev_min()),
        (250.0, 900.0)
    );
    assert_eq!(
        (lathe.bore, lathe.centres),
        (Some(Length::mm(20.0)), Some(Length::mm(400.0)))
    );
    assert_eq!(
        (lathe.travel, lathe.screwcutting),
        (Some(Length::mm(60.0)), true)
    );
}

#[test]
fn what_a_bench_cannot_have_is_told() {
    let said = |line: &str| {
        let design = design(&format!("bench shed {{\n{line}\n}}"));
        design.findings.iter().map(|it| it.rule).collect::<Vec<_>>()
    };
    assert_eq!(said("lathe 0..900"), ["out-of-range"]);
    assert_eq!(said("lathe 3mm"), ["unit-mismatch"]);
    assert_eq!(said("saw kerf 0"), ["out-of-range"]);
    assert_eq!(said("taps M10x0.75 lead Q"), ["out-of-range"]);
    assert_eq!(said("boring -3"), ["out-of-range"]);
}
