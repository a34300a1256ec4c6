//! Formatting.

use super::Document;
use crate::server_state::RequestContext;
use quillet_syntax::Edit;
use serde::{Deserialize, Serialize};
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    DocumentFormattingParams, DocumentOnTypeFormattingParams, DocumentRangeFormattingParams, Range,
    TextDocumentIdentifier, TextDocumentPositionParams, TextEdit,
};

/// Brings a document into its canonical form. How an editor would indent does not matter: there
/// is one form.
pub(crate) fn whole(
    asked: &RequestContext,
    params: &DocumentFormattingParams,
) -> Result<Option<Vec<TextEdit>>> {
    let document = asked.document(&params.text_document.uri);
    Ok(document.map(|document| edits(&document, quillet_ide::format(&document.file))))
}

/// Brings some lines of a document into form.
pub(crate) fn range(
    asked: &RequestContext,
    params: &DocumentRangeFormattingParams,
) -> Result<Option<Vec<TextEdit>>> {
    let range = Document::within(asked, &params.text_document.uri, params.range)?;
    let Some((document, within)) = range else {
        return Ok(None);
    };
    Ok(Some(edits(
        &document,
        quillet_ide::format_range(&document.file, within),
    )))
}

/// Several ranges of a document.
#[derive(Deserialize, Serialize)]
#[serde(rename_all = "camelCase")]
pub(crate) struct RangesParams {
    text_document: TextDocumentIdentifier,
    ranges: Vec<Range>,
}

/// Brings the lines of several ranges into form, each line once.
pub(crate) fn ranges(
    asked: &RequestContext,
    params: &RangesParams,
) -> Result<Option<Vec<TextEdit>>> {
    let mut lines = Vec::new();
    let mut document = None;
    for range in &params.ranges {
        let found = Document::within(asked, &params.text_document.uri, *range)?;
        let Some((found, within)) = found else {
            return Ok(None);
        };
        lines.push(within);
        document = Some(found);
    }
    Ok(document.map(|it| edits(&it, quillet_ide::format_ranges(&it.file, &lines))))
}

/// Brings the line or block just ended into form.
pub(crate) fn on_type(
    asked: &RequestContext,
    params: &DocumentOnTypeFormattingParams,
) -> Result<Option<Vec<TextEdit>>> {
    let place = &params.text_document_position;
    let place = TextDocumentPositionParams {
        text_document: TextDocumentIdentifier {
            uri: place.text_document.uri.clone(),
        },
        position: place.position,
    };
    asked.at(&place, |document, cursor| {
        Some(edits(
            document,
            quillet_ide::format_on_type(&document.file, cursor.offset),
        ))
    })
}

fn edits(document: &Document, edits: Vec<Edit>) -> Vec<TextEdit> {
    let edits = edits.into_iter();
    let text_edit = |edit: Edit| TextEdit {
        range: document.lines.range(edit.span.range()),
        new_text: edit.text.to_string(),
    };
    edits.map(text_edit).collect()
}
