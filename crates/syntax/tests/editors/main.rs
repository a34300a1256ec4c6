//! The grammars of `editors/`, written from the table of the language's words; the test
//! says which file is stale.
//!
//! `QUILLET_WRITE_GRAMMARS=1 cargo test -p quillet-syntax --test editors` writes them anew.

#![allow(
    clippy::unwrap_used,
    reason = "tests stop where a file cannot be written"
)]

mod emacs;
mod kate;
mod rule;
mod sets;
mod sublime;
mod textmate;
mod vim;

use std::path::{Path, PathBuf};

/// What each file says of itself, as a comment where its format has them.
const WRITTEN: &str =
    "Written from the table of words by crates/syntax/tests/editors; do not edit.";

#[test]
fn the_editors_grammars_are_those_of_the_words() {
    let stale: Vec<_> = [
        ("vscode/syntaxes/quillet.tmLanguage.json", textmate::file()),
        ("sublime/Quillet.sublime-syntax", sublime::file()),
        ("neovim/syntax/quillet.vim", vim::file()),
        ("emacs/quillet-words.el", emacs::file()),
        ("kate/quillet.xml", kate::file()),
    ]
    .into_iter()
    .filter(|(path, wanted)| is_stale(&editors().join(path), wanted))
    .map(|(path, _)| path)
    .collect();
    assert!(
        stale.is_empty(),
        "stale in editors/: {}; QUILLET_WRITE_GRAMMARS=1 cargo test -p quillet-syntax --test editors writes them anew",
        stale.join(", ")
    );
}

/// Whether a file differs from what it should be; written anew where that is asked for.
fn is_stale(path: &Path, wanted: &str) -> bool {
    if std::env::var_os("QUILLET_WRITE_GRAMMARS").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, wanted).unwrap();
    }
    let found = std::fs::read_to_string(path).unwrap_or_default();
    !found.lines().eq(wanted.lines())
}

fn editors() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../editors")
}
