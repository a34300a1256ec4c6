//! Renaming names and files.

use super::names::Targets;
use crate::server_state::{RequestContext, path_of};
use std::collections::HashMap;
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::{
    PrepareRenameResponse, RenameFilesParams, RenameParams, TextDocumentPositionParams, TextEdit,
    Url, WorkspaceEdit,
};

/// What would be renamed at a place.
pub(crate) fn prepare(
    asked: &RequestContext,
    params: &TextDocumentPositionParams,
) -> Result<Option<PrepareRenameResponse>> {
    asked.at(params, |document, cursor| {
        let span = quillet_ide::renamable(cursor)?;
        Some(PrepareRenameResponse::RangeWithPlaceholder {
            range: document.lines.range(span.range()),
            placeholder: document.file.text.get(span.range())?.to_owned(),
        })
    })
}

/// The edits that give the name at a place another.
pub(crate) fn rename(
    asked: &RequestContext,
    params: &RenameParams,
) -> Result<Option<WorkspaceEdit>> {
    let edit = asked.at(&params.text_document_position, |_, cursor| {
        let off = || asked.cancel.is_off();
        let spans = match quillet_ide::rename(&asked.snapshot, cursor, &params.new_name, &off) {
            Ok(spans) => spans,
            Err(why) => return Some(Err(refused(why))),
        };
        let mut changes = Changes::new(asked);
        for (path, spans) in &spans {
            for span in spans {
                changes.add(path, *span, params.new_name.clone());
            }
        }
        Some(Ok(changes.finish()))
    })?;
    edit.transpose()
}

/// The edits of `use` lines when files are given other paths.
pub(crate) fn files(
    asked: &RequestContext,
    params: &RenameFilesParams,
) -> Result<Option<WorkspaceEdit>> {
    let moved = params.files.iter().filter_map(|moved| {
        let path = |uri: &str| Url::parse(uri).ok().map(|url| path_of(&url));
        Some((path(&moved.old_uri)?, path(&moved.new_uri)?))
    });
    let edits = quillet_ide::renamed(&asked.snapshot, &moved.collect::<Vec<_>>());
    let mut changes = Changes::new(asked);
    for edit in &edits {
        changes.add(&edit.path, edit.span, edit.text.clone());
    }
    Ok((!edits.is_empty()).then(|| changes.finish()))
}

/// Edits of several files, put together.
pub(crate) struct Changes<'a> {
    places: Targets<'a>,
    edits: HashMap<Url, Vec<TextEdit>>,
}

impl<'a> Changes<'a> {
    /// No edits yet.
    pub(crate) fn new(asked: &'a RequestContext) -> Self {
        Self {
            places: Targets::new(asked),
            edits: HashMap::new(),
        }
    }

    /// Replaces a span.
    pub(crate) fn add(&mut self, path: &std::path::Path, span: quillet_syntax::Span, new: String) {
        if let Some(location) = self.places.location(path, span) {
            let edit = TextEdit {
                range: location.range,
                new_text: new,
            };
            self.edits.entry(location.uri).or_default().push(edit);
        }
    }

    /// All of them.
    pub(crate) fn finish(self) -> WorkspaceEdit {
        WorkspaceEdit {
            changes: Some(self.edits),
            ..WorkspaceEdit::default()
        }
    }
}

/// What an editor shows to the maker as it stands.
fn refused(why: String) -> Error {
    // -32803, "request failed": it was understood, and cannot be done.
    Error {
        code: ErrorCode::ServerError(-32803),
        message: why.into(),
        data: None,
    }
}
