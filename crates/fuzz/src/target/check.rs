//! Everything from the text to the findings: places lie in it, and no number is none.

use super::parse::places;
use super::{no_nan, none_in, text_of};
use quillet_check::examine;
use quillet_model::{Design, Texts, load, resolve};
use std::path::Path;

pub(super) fn run(bytes: &[u8]) {
    let text = &*text_of(bytes);
    // Of a text that names it, it may be told.
    if none_in(text).is_some() {
        return;
    }
    let Some(design) = design(text) else { return };
    let examined = examine(&design);
    places(text, &examined.findings);
    for finding in &examined.findings {
        no_nan(&finding.message);
        finding.hint.iter().for_each(|hint| no_nan(hint));
        finding.labels.iter().for_each(|label| no_nan(&label.text));
        finding.fixes.iter().for_each(|fix| no_nan(&fix.title));
    }
}

/// The design of a text that may use the shared files of the examples.
pub(super) fn design(text: &str) -> Option<Design> {
    thread_local! {
        static SHARED: Vec<(&'static str, String)> = shared();
    }
    let path = Path::new("pen.quillet");
    let texts = SHARED.with(|shared| {
        // The file asked for is the first: its number is 0.
        let mut texts = Texts::default().with(path, text);
        for (name, shared) in shared {
            if text.contains(name) {
                texts = texts.with(*name, shared);
            }
        }
        texts
    });
    load(path, &texts).ok().map(|loaded| resolve(&loaded))
}

fn shared() -> Vec<(&'static str, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let read = |name| Some((name, std::fs::read_to_string(folder.join(name)).ok()?));
    ["saltings.quillet", "bought.quillet"]
        .into_iter()
        .filter_map(read)
        .collect()
}
