//! The pages that are made of the statements; the test says which is stale.
//!
//! `QUILLET_WRITE_GRAMMARS=1 cargo test -p quillet-syntax --test grammar` writes them anew.

use crate::{ebnf, list, queries, tree_sitter};
use std::path::Path;

/// What Helix' themes call these colours.
const HELIX: [(&str, &str); 2] = [
    ("number", "constant.numeric"),
    ("property", "variable.other.member"),
];

#[test]
fn the_grammar_is_that_of_the_statements() {
    is_fresh("grammar.ebnf", &ebnf::ebnf());
}

#[test]
fn the_manuals_list_is_that_of_the_statements() {
    is_fresh("../cli/manual/statements.md", &list::list());
}

#[test]
fn the_editors_compiled_grammar_is_that_of_the_statements() {
    is_fresh(
        "../../editors/tree-sitter/grammar.js",
        &tree_sitter::grammar(),
    );
}

#[test]
fn the_editors_queries_are_those_of_the_statements() {
    let ours = "../../editors/tree-sitter/queries";
    is_fresh(&format!("{ours}/highlights.scm"), &queries::highlights());
    is_fresh(&format!("{ours}/folds.scm"), &queries::folds());
    let neovim = queries::indents("indent.begin", "@indent.branch @indent.end");
    is_fresh(&format!("{ours}/indents.scm"), &neovim);
    let helix = queries::indents("indent", "@outdent");
    is_fresh("../../editors/helix/queries/indents.scm", &helix);
    let helix = queries::highlights_as(&HELIX);
    is_fresh("../../editors/helix/queries/highlights.scm", &helix);
    let zed = "../../editors/zed/languages/quillet";
    is_fresh(&format!("{zed}/highlights.scm"), &queries::highlights());
    let indents = queries::indents_to_the_end();
    is_fresh(&format!("{zed}/indents.scm"), &indents);
}

fn is_fresh(path: &str, wanted: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    if std::env::var_os("QUILLET_WRITE_GRAMMARS").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, wanted).unwrap();
    }
    let found = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        found.lines().eq(wanted.lines()),
        "stale: {}; QUILLET_WRITE_GRAMMARS=1 cargo test -p quillet-syntax --test grammar writes it anew",
        path.display()
    );
}
