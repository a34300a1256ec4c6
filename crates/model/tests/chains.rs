//! The sizes that a worst case is the sum of stand in an order that no rounding turns.

#![allow(
    clippy::expect_used,
    reason = "tests stop where an example is not there"
)]

use quillet_fixture::EXAMPLES;
use quillet_model::{Link, Pen, Texts, load, resolve};
use std::path::Path;

/// Sizes that take as much of a gap, but for the last places of a sum, stand by their part's name and
/// their place: those places differ from build to build.
#[test]
fn sizes_that_take_as_much_stand_by_name() {
    let texts = Texts::from_iter(EXAMPLES);
    let mut alike = 0;
    for (file, _) in EXAMPLES {
        let design = resolve(&load(Path::new(file), &texts).expect("an example"));
        for pen in &design.pens {
            for clearance in pen
                .assembly
                .joints
                .iter()
                .flat_map(|it| it.clearances.iter())
            {
                for pair in clearance.chain.windows(2) {
                    let [a, b] = pair else { continue };
                    if (a.takes_mm() - b.takes_mm()).abs() < 1e-7 {
                        alike += 1;
                        assert!(order(pen, a) <= order(pen, b), "{file}: {pair:?}");
                    }
                }
            }
        }
    }
    assert!(alike > 50, "{alike} pairs are alike");
}

fn order<'p>(pen: &'p Pen, link: &Link) -> (&'p str, quillet_model::Size) {
    (&pen.parts[link.size.part()].name.text, link.size)
}
