//! What documents define.

use super::names::Targets;
use crate::position::PositionMap;
use crate::server_state::RequestContext;
use quillet_ide::{Symbol, SymbolKind as Kind};
use quillet_model::DefinitionKind;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    DocumentSymbol, DocumentSymbolParams, DocumentSymbolResponse, SymbolInformation, SymbolKind,
    WorkspaceSymbolParams,
};

/// What a document defines.
pub(crate) fn document(
    asked: &RequestContext,
    params: &DocumentSymbolParams,
) -> Result<Option<DocumentSymbolResponse>> {
    let Some(document) = asked.document(&params.text_document.uri) else {
        return Ok(None);
    };
    let found = quillet_ide::symbols(&document.analysis, &document.file);
    let symbols = found
        .into_iter()
        .map(|it| symbol(&document.lines, it))
        .collect();
    Ok(Some(DocumentSymbolResponse::Nested(symbols)))
}

/// What all documents define, by a few letters.
pub(crate) fn workspace(
    asked: &RequestContext,
    params: &WorkspaceSymbolParams,
) -> Result<Option<Vec<SymbolInformation>>> {
    let off = || asked.cancel.is_off();
    let mut places = Targets::new(asked);
    let found = quillet_ide::find(&asked.snapshot, &params.query, &off).into_iter();
    let symbols = found.filter_map(|found| {
        let location = places.location(&found.path, found.symbol.name_span)?;
        #[allow(deprecated, reason = "the field has no other constructor")]
        Some(SymbolInformation {
            name: found.symbol.name,
            kind: kind(found.symbol.kind),
            tags: None,
            deprecated: None,
            location,
            // There is no other place for its sizes.
            container_name: (!found.symbol.detail.is_empty()).then_some(found.symbol.detail),
        })
    });
    Ok(Some(symbols.collect()))
}

fn symbol(lines: &PositionMap, symbol: Symbol) -> DocumentSymbol {
    let inner: Vec<_> = symbol
        .inner
        .into_iter()
        .map(|it| self::symbol(lines, it))
        .collect();
    #[allow(deprecated, reason = "the field has no other constructor")]
    DocumentSymbol {
        name: symbol.name,
        detail: (!symbol.detail.is_empty()).then_some(symbol.detail),
        kind: kind(symbol.kind),
        tags: None,
        deprecated: None,
        range: lines.range(symbol.span.range()),
        selection_range: lines.range(symbol.name_span.range()),
        children: (!inner.is_empty()).then_some(inner),
    }
}

pub(super) fn kind(kind: Kind) -> SymbolKind {
    match kind {
        Kind::Block => SymbolKind::OBJECT,
        Kind::Joint => SymbolKind::EVENT,
        Kind::Named(kind) => match kind {
            DefinitionKind::Let => SymbolKind::VARIABLE,
            DefinitionKind::Material => SymbolKind::ENUM,
            DefinitionKind::Thread => SymbolKind::TYPE_PARAMETER,
            DefinitionKind::Blank => SymbolKind::STRUCT,
            DefinitionKind::Part => SymbolKind::CLASS,
            DefinitionKind::Bought => SymbolKind::INTERFACE,
            DefinitionKind::Bench => SymbolKind::NAMESPACE,
            DefinitionKind::Pen | DefinitionKind::Made => SymbolKind::FUNCTION,
            DefinitionKind::Face => SymbolKind::PROPERTY,
        },
    }
}
