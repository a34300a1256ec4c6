//! How a text is built: its words, blocks and names, and its form.

use crate::opened::{Changes, Opened};
use quillet_ide::{SemanticTokenKind, Symbol};
use quillet_syntax::Span;
use serde::Serialize;

/// A word and what it is.
#[derive(Serialize)]
pub(super) struct TokenAnswer {
    from: usize,
    to: usize,
    kind: &'static str,
    defines: bool,
}

/// A name that a file defines, with those within.
#[derive(Serialize)]
pub(super) struct SymbolAnswer {
    name: String,
    detail: String,
    from: usize,
    to: usize,
    inner: Vec<SymbolAnswer>,
}

/// What each word of a file is.
pub(super) fn tokens(open: &Opened) -> Vec<TokenAnswer> {
    let whole = Span::new(open.file.id, 0, open.file.text.len());
    let found = quillet_ide::colours(&open.analysis, &open.file, whole);
    let each = found.into_iter().map(|it| {
        let (from, to) = open.here(it.span);
        TokenAnswer {
            from,
            to,
            kind: kind(it.kind),
            defines: it.defines,
        }
    });
    each.collect()
}

/// What can be folded: from where to where.
pub(super) fn folds(open: &Opened) -> Vec<(usize, usize)> {
    let found = quillet_ide::folds(&open.file.parsed.tree);
    found.into_iter().map(|it| open.here(it.span)).collect()
}

/// What a file defines.
pub(super) fn symbols(open: &Opened) -> Vec<SymbolAnswer> {
    let found = quillet_ide::symbols(&open.analysis, &open.file);
    found.into_iter().map(|it| symbol(open, it)).collect()
}

fn symbol(open: &Opened, it: Symbol) -> SymbolAnswer {
    let (from, to) = open.here(it.name_span);
    SymbolAnswer {
        name: it.name,
        detail: it.detail,
        from,
        to,
        inner: it.inner.into_iter().map(|it| symbol(open, it)).collect(),
    }
}

/// The edits that bring a file into its form.
pub(super) fn format(open: &Opened) -> Changes {
    open.changes(&quillet_ide::format(&open.file))
}

fn kind(kind: SemanticTokenKind) -> &'static str {
    match kind {
        SemanticTokenKind::Comment => "comment",
        SemanticTokenKind::Keyword => "keyword",
        SemanticTokenKind::Number => "number",
        SemanticTokenKind::Text => "text",
        SemanticTokenKind::Operator => "operator",
        SemanticTokenKind::Designation => "designation",
        SemanticTokenKind::Let => "let",
        SemanticTokenKind::Material => "material",
        SemanticTokenKind::Thread => "thread",
        SemanticTokenKind::Blank => "blank",
        SemanticTokenKind::Part => "part",
        SemanticTokenKind::Bought => "bought",
        SemanticTokenKind::Bench => "bench",
        SemanticTokenKind::Pen => "pen",
        SemanticTokenKind::Face => "face",
        SemanticTokenKind::Measure => "measure",
        SemanticTokenKind::Rule => "rule",
    }
}
