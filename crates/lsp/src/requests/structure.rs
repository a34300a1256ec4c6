//! How a document is built: folding, selections, links.

use crate::server_state::RequestContext;
use quillet_ide::FoldKind;
use quillet_syntax::Span;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    DocumentLink, DocumentLinkParams, FoldingRange, FoldingRangeKind, FoldingRangeParams,
    SelectionRange, SelectionRangeParams,
};

/// What can be folded.
pub(crate) fn folds(
    asked: &RequestContext,
    params: &FoldingRangeParams,
) -> Result<Option<Vec<FoldingRange>>> {
    let Some(document) = asked.document(&params.text_document.uri) else {
        return Ok(None);
    };
    let folds = quillet_ide::folds(&document.file.parsed.tree)
        .into_iter()
        .filter_map(|fold| {
            let range = document.lines.range(fold.span.range());
            // The closing brace stays in sight.
            let end_line = match fold.kind {
                FoldKind::Block => range.end.line.checked_sub(1)?,
                FoldKind::Note | FoldKind::Uses => range.end.line,
            };
            (end_line > range.start.line).then_some(FoldingRange {
                start_line: range.start.line,
                end_line,
                kind: Some(match fold.kind {
                    FoldKind::Block => FoldingRangeKind::Region,
                    FoldKind::Note => FoldingRangeKind::Comment,
                    FoldKind::Uses => FoldingRangeKind::Imports,
                }),
                start_character: None,
                end_character: None,
                collapsed_text: None,
            })
        });
    Ok(Some(folds.collect()))
}

/// What selections at places grow to.
pub(crate) fn selections(
    asked: &RequestContext,
    params: &SelectionRangeParams,
) -> Result<Option<Vec<SelectionRange>>> {
    let Some(document) = asked.document(&params.text_document.uri) else {
        return Ok(None);
    };
    let mut chains = Vec::new();
    for place in &params.positions {
        let spans = document
            .cursor(*place)?
            .map(quillet_ide::selections)
            .unwrap_or_default();
        let nested = |outer: Option<SelectionRange>, span: &Span| {
            let range = document.lines.range(span.range());
            Some(SelectionRange {
                range,
                parent: outer.map(Box::new),
            })
        };
        chains.extend(spans.iter().rev().fold(None, nested));
    }
    Ok(Some(chains))
}

/// The files that `use` lines name.
pub(crate) fn links(
    asked: &RequestContext,
    params: &DocumentLinkParams,
) -> Result<Option<Vec<DocumentLink>>> {
    let Some(document) = asked.document(&params.text_document.uri) else {
        return Ok(None);
    };
    let links = quillet_ide::links(&document.analysis, &document.file).into_iter();
    let links = links.map(|link| DocumentLink {
        range: document.lines.range(link.span.range()),
        target: asked.url(&link.path),
        tooltip: Some("open this file".into()),
        data: None,
    });
    Ok(Some(links.collect()))
}
