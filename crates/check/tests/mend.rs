//! All slips of spelling in one go: it cannot change the pen, and it settles in one pass.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_check::{Trial, check};
use quillet_fixture::EXAMPLES;
use quillet_model::{Texts, load, resolve};
use quillet_syntax::{FileId, edited};
use std::path::Path;

const NAME: &str = "heron.quillet";

fn heron() -> &'static str {
    EXAMPLES.iter().find(|(name, _)| *name == NAME).unwrap().1
}

/// The text with everything mended that cannot change the pen.
fn mended(text: &str) -> String {
    let texts = Texts::from_iter(EXAMPLES).with(NAME, text);
    let root = Path::new(NAME);
    let design = resolve(&load(root, &texts).unwrap());
    let findings = check(&design);
    let file: FileId = design.root().unwrap().id;
    let trial = Trial {
        root,
        source: &texts,
        prepare: &|_| {},
        design: &design,
        findings: &findings,
        called_off: &|| false,
    };
    edited(text, &trial.mended(file)).unwrap()
}

#[test]
fn slips_of_spelling_are_put_right_in_one_pass_those_that_others_hide_too() {
    let slipped = heron()
        .replacen("countersink 10.4", "countersnk 10.4", 1)
        .replacen("dia 15.8  smooth", "dia 15,8  smoth", 1)
        .replacen("blank of body rod 13", "blank of bdy rod 13", 1)
        .replacen("screw section.shank", "screw sectoin.shank", 1);
    assert_ne!(slipped, heron());
    assert_eq!(mended(&slipped), heron());
    assert_eq!(mended(&mended(&slipped)), heron());
}

#[test]
fn what_would_change_the_pen_is_left() {
    // A hole too shallow for its tap has a cure, and an unused part could be taken out.
    let changed = heron().replacen(
        "drill 9.3               to 12",
        "drill 9.3              to 9.5",
        1,
    ) + "\nthread spare = M8x1\n";
    assert_ne!(changed, heron());
    assert_eq!(mended(&changed), changed);
}
