//! The pens that the tests draw, and where their pictures go.

use quillet_fixture::{EXAMPLES, MORE_EXAMPLES};
use quillet_model::{Design, Part, Texts, load, resolve};
use std::path::Path;

/// The design of an example.
pub(crate) fn example(name: &str) -> Design {
    let drawn = [
        ("alike.quillet", include_str!("../pens/alike.quillet")),
        ("dipped.quillet", include_str!("../pens/dipped.quillet")),
        ("odd.quillet", include_str!("../pens/odd.quillet")),
        ("faceted.quillet", include_str!("../pens/faceted.quillet")),
        ("fitted.quillet", include_str!("../pens/fitted.quillet")),
        ("patient.quillet", include_str!("../pens/patient.quillet")),
    ];
    let texts = Texts::from_iter(EXAMPLES.into_iter().chain(drawn));
    // What stands a folder further down uses what stands above it.
    let texts = MORE_EXAMPLES.iter().fold(texts, |texts, (name, text)| {
        texts.with(name, &text.replace("\"../", "\""))
    });
    let design = resolve(&load(Path::new(name), &texts).expect("the texts are there"));
    let written: Vec<_> = design
        .findings
        .iter()
        .map(|it| (it.rule, &it.message))
        .collect();
    assert!(written.is_empty(), "{written:#?}");
    design
}

/// A part of a name.
pub(crate) fn part<'a>(design: &'a Design, name: &str) -> &'a Part {
    design
        .part(name)
        .unwrap_or_else(|| panic!("there is no {name}"))
}

/// Keeps what was drawn, to be looked at.
pub(crate) fn picture(name: &str, bytes: &[u8]) {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pictures");
    std::fs::create_dir_all(&folder).expect("a folder for pictures");
    std::fs::write(folder.join(name), bytes).expect("a picture is written");
}
