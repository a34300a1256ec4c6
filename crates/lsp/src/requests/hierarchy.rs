//! What uses what: pens and their parts, parts and their threads.

use super::names::Targets;
use crate::server_state::RequestContext;
use quillet_ide::{Relation, Symbol};
use quillet_syntax::Span;
use std::path::Path;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    CallHierarchyIncomingCall, CallHierarchyIncomingCallsParams, CallHierarchyItem,
    CallHierarchyOutgoingCall, CallHierarchyOutgoingCallsParams, CallHierarchyPrepareParams, Range,
    TextDocumentIdentifier, TextDocumentPositionParams,
};

/// The item at a place.
pub(crate) fn prepare(
    asked: &RequestContext,
    params: &CallHierarchyPrepareParams,
) -> Result<Option<Vec<CallHierarchyItem>>> {
    asked.at(&params.text_document_position_params, |_, cursor| {
        let (path, symbol) = quillet_ide::item(cursor)?;
        Some(vec![item(&mut Targets::new(asked), &path, &symbol)?])
    })
}

/// What uses an item.
pub(crate) fn incoming(
    asked: &RequestContext,
    params: &CallHierarchyIncomingCallsParams,
) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
    asked.at(&place(&params.item), |_, cursor| {
        let off = || asked.cancel.is_off();
        let mut places = Targets::new(asked);
        let calls = quillet_ide::used_by(&asked.snapshot, cursor, &off);
        let calls = calls.into_iter().filter_map(|relation| {
            let from_ranges = ranges(&mut places, &relation.path, &relation.places);
            let from = related(&mut places, &relation)?;
            Some(CallHierarchyIncomingCall { from, from_ranges })
        });
        Some(calls.collect())
    })
}

/// What an item uses.
pub(crate) fn outgoing(
    asked: &RequestContext,
    params: &CallHierarchyOutgoingCallsParams,
) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
    asked.at(&place(&params.item), |document, cursor| {
        let mut places = Targets::new(asked);
        let calls = quillet_ide::uses(cursor)
            .into_iter()
            .filter_map(|relation| {
                let from_ranges = ranges(&mut places, &document.file.path, &relation.places);
                let to = related(&mut places, &relation)?;
                Some(CallHierarchyOutgoingCall { to, from_ranges })
            });
        Some(calls.collect())
    })
}

fn place(item: &CallHierarchyItem) -> TextDocumentPositionParams {
    TextDocumentPositionParams {
        text_document: TextDocumentIdentifier {
            uri: item.uri.clone(),
        },
        position: item.selection_range.start,
    }
}

fn related(places: &mut Targets<'_>, relation: &Relation) -> Option<CallHierarchyItem> {
    item(places, &relation.path, &relation.item)
}

fn item(places: &mut Targets<'_>, path: &Path, symbol: &Symbol) -> Option<CallHierarchyItem> {
    let name = places.location(path, symbol.name_span)?;
    let whole = places.location(path, symbol.span)?;
    Some(CallHierarchyItem {
        name: symbol.name.clone(),
        kind: super::symbols::kind(symbol.kind),
        tags: None,
        detail: (!symbol.detail.is_empty()).then(|| symbol.detail.clone()),
        uri: whole.uri,
        range: whole.range,
        selection_range: name.range,
        data: None,
    })
}

fn ranges(places: &mut Targets<'_>, path: &Path, spans: &[Span]) -> Vec<Range> {
    let locations = spans.iter().filter_map(|span| places.location(path, *span));
    locations.map(|location| location.range).collect()
}
