//! What a bench says, resolved.

use quillet_geometry::Length;
use quillet_model::{Design, Hand, Texts, load, resolve};
use quillet_syntax::ast::ToleranceKind;
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
    let written = |line: &str| {
        let design = design(&format!("bench shed {{\n{line}\n}}"));
        design.findings.iter().map(|it| it.rule).collect::<Vec<_>>()
    };
    assert_eq!(written("lathe 0..900"), ["out-of-range"]);
    assert_eq!(written("lathe 3mm"), ["unit-mismatch"]);
    assert_eq!(written("saw kerf 0"), ["out-of-range"]);
    assert_eq!(written("taps M10x0.75 lead Q"), ["out-of-range"]);
    assert_eq!(written("boring -3"), ["out-of-range"]);
    assert_eq!(written("keeps depth -0.1"), ["out-of-range"]);
    assert_eq!(written("keeps nib 2.01"), ["out-of-range"]);
    assert_eq!(written("keeps bore 3g"), ["unit-mismatch"]);
    assert_eq!(written("caliper -0.02"), ["out-of-range"]);
    assert_eq!(written("caliper 0.02\ncaliper 0.05"), ["said-twice"]);
    assert_eq!(written("keeps dia 0\nkeeps dia 0.1"), ["said-twice"]);
    assert!(written("keeps depth 0\nkeeps drill 2\nkeeps length 1/64in").is_empty());
}

#[test]
fn a_hand_is_what_its_bench_says_and_a_drawing_for_the_rest() {
    let design = design(
        "dimensions in inches
         bench shed {
           keeps depth 0.01
           keeps nib 0.5mm
           caliper 0.001
         }",
    );
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    let hand = Hand::at(design.bench(None).map(AsRef::as_ref));
    let keeps = |kept| hand.keeps(kept, Length::mm(64.0)).to_mm();
    assert_eq!(
        (keeps(ToleranceKind::Depth), keeps(ToleranceKind::Nib)),
        (0.254, 0.5)
    );
    assert_eq!(
        (keeps(ToleranceKind::Shoulder), keeps(ToleranceKind::Drill)),
        (0.15, 0.15)
    );
    assert_eq!(hand.caliper(), Length::mm(0.0254));
    assert_eq!(Hand::at(None), Hand::default());
}

#[test]
fn each_part_of_a_pen_is_made_by_the_hand_of_its_own_bench() {
    let part = |name: &str, bench: &str| {
        format!(
            "part {name} from a to b {{\nblank of acrylic rod 16\nlength 20\noutside dia 12\n{bench}\nfrom a {{ drill 8 to 10 }}\n}}\n"
        )
    };
    let text = format!(
        "bench shed {{ keeps depth 0.4 }}\nbench loft {{ keeps depth 0.1 }}\n{}{}{}",
        part("one", "bench loft"),
        part("two", ""),
        "pen of-two {\nbench shed\nglue one.b into two.a\n}\npen of-none {\nglue one.b into two.a\n}"
    );
    let design = design(&text);
    let depths = |pen: usize| {
        let pen = &design.pens[pen];
        let depth = |name| {
            let part = pen.part_id(name).expect("it is in the pen");
            pen.hands[part]
                .keeps(ToleranceKind::Depth, Length::mm(10.0))
                .to_mm()
        };
        (depth("one"), depth("two"))
    };
    // Two benches in sight: where none is named, the table of ISO 2768-1 m holds.
    assert_eq!((depths(0), depths(1)), ((0.1, 0.4), (0.1, 0.2)));
}
