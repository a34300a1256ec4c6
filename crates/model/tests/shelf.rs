//! What a shelf says, resolved.

use quillet_geometry::Length;
use quillet_model::{Design, Texts, Ware, load, resolve};
use std::path::Path;

const GOODS: &str = "material reed \"Reed\" { kind acrylic }\nbought nib from point to heel { length 40; outside dia 8; mass 2.6 }\n";

fn design(lines: &str) -> Design {
    let text = format!("{GOODS}shelf drawer {{\n{lines}\n}}\n");
    let texts = Texts::default().with("shelf.quillet", &text);
    resolve(&load(Path::new("shelf.quillet"), &texts).expect("the text is there"))
}

#[test]
fn a_shelf_is_what_its_lines_say() {
    let design = design(
        "have reed rod 18 by 150, 96.5
         have reed square 3/4in by 6in 4
         have nib 3
         have nib
         price reed rod 18 by 150 = 9.50
         price nib = 2 * 12
         rate 30",
    );
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    let shelf = &design.shelves[0];
    let lengths: Vec<_> = shelf
        .have
        .iter()
        .filter_map(|it| match it.ware {
            Ware::Stock { length, size, .. } => Some((size.to_mm(), length.to_mm(), it.count)),
            Ware::Bought(_) => None,
        })
        .collect();
    assert_eq!(
        lengths,
        [(18.0, 150.0, 1), (18.0, 96.5, 1), (19.05, 152.4, 4)]
    );
    assert_eq!((shelf.bought("nib"), shelf.bought("seal")), (4, 0));
    assert_eq!(shelf.price(&Ware::Bought("nib".into())), Some(24.0));
    let Ware::Stock {
        material,
        section,
        size,
        ..
    } = &shelf.have[0].ware
    else {
        panic!("a rod stands first");
    };
    let rod = |mm: f64| Ware::Stock {
        material: material.clone(),
        section: *section,
        size: *size,
        length: Length::mm(mm),
    };
    assert_eq!(shelf.price(&rod(150.0)), Some(9.5));
    assert_eq!(shelf.price(&rod(96.5)), None);
    assert_eq!(shelf.rate, Some(30.0));
}

#[test]
fn what_a_shelf_cannot_hold_is_told() {
    for (lines, rule, says) in [
        ("price nib = -24", "out-of-range", "a price of -24"),
        ("rate -1", "out-of-range", "a rate of -1"),
        ("have nib 1.5", "out-of-range", "1.5 is no count"),
        ("have nib 20000", "out-of-range", "from 0 to 10000"),
        ("have reed rod 0 by 150", "out-of-range", "stock of 0"),
        (
            "have reed rod 18 by -150",
            "out-of-range",
            "a length of stock of -150",
        ),
        ("have reed", "incomplete", "reed is a material"),
        ("have feed 3", "unknown-name", "feed"),
        (
            "have nib rod 18 by 150",
            "unknown-name",
            "nib is a bought part",
        ),
        ("price quill = 3", "unknown-name", "quill"),
        ("hours heron 6.5", "unknown-name", "heron"),
        (
            "price nib = 2\nprice nib = 3",
            "said-twice",
            "a second time",
        ),
        ("rate 2\nrate 3", "said-twice", "a second time"),
        (
            "price reed rod 18 by 150, 150 = 3",
            "said-twice",
            "a second time",
        ),
        ("price nib = 2mm", "unit-mismatch", "a price"),
    ] {
        let found = design(lines).findings;
        let told = |it: &quillet_syntax::Finding| {
            let message = it.message.to_string();
            it.rule == rule && message.contains(says) && it.hint.is_some()
        };
        assert!(found.iter().any(told), "{lines}\n{found:#?}");
    }
}
