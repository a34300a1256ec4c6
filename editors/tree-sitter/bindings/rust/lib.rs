//! The committed parser as a tree-sitter language; the one place that calls C.

use tree_sitter_language::LanguageFn;

unsafe extern "C" {
    fn tree_sitter_quillet() -> *const ();
}

/// The grammar of `grammar.js`.
// SAFETY: the function is the one the generator writes into `src/parser.c`.
pub const LANGUAGE: LanguageFn = unsafe { LanguageFn::from_raw(tree_sitter_quillet) };
