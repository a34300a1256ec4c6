//! What is bought for a batch, by hand.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_fixture::EXAMPLES;
use quillet_model::{Texts, load, resolve};
use quillet_plan::{BatchMember, BuyList, CutList, PenOfBatch, plan_pen};
use std::path::Path;

/// What is bought for so many of a pen of an example, with lines more on its shelf.
fn bought(file: &str, pen: &str, count: u32, shelf: &str) -> BuyList {
    let mut texts = Texts::default();
    for (name, text) in EXAMPLES {
        let text = text.split("\nshelf saltings {").next().unwrap();
        let text = match name == file {
            true => format!("{text}\nshelf saltings {{\n{shelf}\n}}\n"),
            false => text.to_owned(),
        };
        texts = texts.with(name, &text);
    }
    let design = resolve(&load(Path::new(file), &texts).unwrap());
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    let pen = design.pen(pen).unwrap();
    let bench = design.bench(None).map(AsRef::as_ref);
    let plan = plan_pen(pen, bench);
    let list = CutList::of_batch(&[BatchMember {
        plan: &plan,
        bench,
        pen: None,
        count,
    }]);
    let of = PenOfBatch {
        pen,
        plan: &plan,
        bench,
        count,
    };
    BuyList::of(&[of], &list, design.shelves.first().map(AsRef::as_ref))
}

/// Two Herons: barrels sawn to 93, caps to 75, kerf 1.2. On 150 and 96.5: the barrel of 93 goes on the
/// shortest that it fits, 96.5, and leaves 2.3; the next on 150, and leaves 55.8. The two caps of 75 fit
/// on neither: 75 + 1.2 + 75 is more than 150, so two lengths of 150 are bought, each of which leaves
/// 73.8. The sections, 35 each, are of another rod, which is not there nor priced: 71.2 in all.
#[test]
fn what_is_there_is_cut_first_the_shortest_that_fits() {
    let found = bought(
        "heron.quillet",
        "heron",
        2,
        "have reed rod 18 by 150, 96.5\nhave nib-unit 3\nprice reed rod 18 by 150 = 9.50\nprice nib-unit = 24",
    );
    let mm = |lengths: &[quillet_geometry::Length]| -> Vec<f64> {
        lengths.iter().map(|it| it.to_mm()).collect()
    };
    let rod = &found.stocks[0];
    assert_eq!((rod.pieces, rod.lengths), (4, 2));
    assert_eq!(mm(&rod.had), [150.0, 96.5]);
    assert_eq!(mm(&rod.remnants), [73.8, 73.8, 55.8]);
    assert_eq!(rod.price_in_all(), Some(19.0));
    let thin = &found.stocks[1];
    assert_eq!((thin.pieces, thin.lengths, thin.length), (2, 0, None));
    assert_eq!(thin.end_to_end.to_mm(), 71.2);
    let nib = found
        .parts
        .iter()
        .find(|it| &*it.name == "nib-unit")
        .unwrap();
    assert_eq!((nib.needed, nib.had, nib.buy()), (2, 2, 0));
    // The thin rod and the converters.
    assert_eq!((found.price(), found.unpriced()), (19.0, 2));
}

/// Without a price what is bought comes to 0.00.
#[test]
fn what_has_no_price_costs_nothing() {
    let found = bought("heron.quillet", "heron", 1, "have nib-unit 3");
    assert_eq!(format!("{:.2}", found.price()), "0.00");
}

/// One Heron at 9.50 for 150 mm: (93 + 1.2 + 75 + 1.2) · 9.5 / 150 = 10.792; the nib unit 24, whether it is
/// there or not; six and a half hours at 30, 195.
#[test]
fn what_a_pen_costs_by_hand() {
    let found = bought(
        "heron.quillet",
        "heron",
        12,
        "have nib-unit 3\nprice reed rod 18 by 150 = 9.50\nprice nib-unit = 24\nhours heron 6.5\nrate 30",
    );
    let cost = &found.costs[0];
    assert!((cost.materials - 10.792).abs() < 1e-9, "{cost:?}");
    assert_eq!((cost.parts, cost.hours), (24.0, 195.0));
    assert!((cost.in_all() - 12.0 * 229.792).abs() < 1e-9);
    assert_eq!(cost.unpriced, ["Reed rod 13", "Piston converter"]);
    let nib = found
        .parts
        .iter()
        .find(|it| &*it.name == "nib-unit")
        .unwrap();
    assert_eq!((nib.needed, nib.had, nib.buy()), (12, 3, 9));
    assert_eq!(nib.price_in_all(), Some(216.0));
}

/// An O-ring that sits in a groove is needed once a pen.
#[test]
fn what_sits_in_a_groove_is_bought() {
    let found = bought("dunlin.quillet", "dunlin", 3, "have seal 1");
    let seal = found.parts.iter().find(|it| &*it.name == "seal").unwrap();
    assert_eq!((seal.needed, seal.had, seal.buy()), (3, 1, 2));
}
