//! The language server: carries the answers of ide to an editor.
