//! Renaming names and files.

use super::names::Targets;
use crate::server_state::{RequestContext, path_of};
use std::collections::BTreeMap;
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::{
    DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier, PrepareRenameResponse,
    RenameFilesParams, RenameParams, TextDocumentEdit, TextDocumentPositionParams, TextEdit, Url,
    WorkspaceEdit,
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
    asked: &'a RequestContext,
    places: Targets<'a>,
    edits: BTreeMap<Url, Edited>,
}

/// The edits of one file, with the version of the text that they are of where it is open.
struct Edited {
    version: Option<i32>,
    edits: Vec<TextEdit>,
}

impl<'a> Changes<'a> {
    /// No edits yet.
    pub(crate) fn new(asked: &'a RequestContext) -> Self {
        Self {
            asked,
            places: Targets::new(asked),
            edits: BTreeMap::new(),
        }
    }

    /// Replaces a span.
    pub(crate) fn add(&mut self, path: &std::path::Path, span: quillet_syntax::Span, new: String) {
        if let Some(location) = self.places.location(path, span) {
            let edit = TextEdit {
                range: location.range,
                new_text: new,
            };
            let edited = self.edits.entry(location.uri).or_insert_with(|| Edited {
                version: self.asked.version(path),
                edits: Vec::new(),
            });
            edited.edits.push(edit);
        }
    }

    /// All of them; with versions where the editor takes such, so that none is made in a text that has
    /// changed since.
    pub(crate) fn finish(self) -> WorkspaceEdit {
        if !self.asked.editor.versioned_edits {
            let edits = self.edits.into_iter().map(|(url, it)| (url, it.edits));
            return WorkspaceEdit {
                changes: Some(edits.collect()),
                ..WorkspaceEdit::default()
            };
        }
        let edits = self.edits.into_iter().map(|(uri, it)| TextDocumentEdit {
            text_document: OptionalVersionedTextDocumentIdentifier {
                uri,
                version: it.version,
            },
            edits: it.edits.into_iter().map(OneOf::Left).collect(),
        });
        WorkspaceEdit {
            document_changes: Some(DocumentChanges::Edits(edits.collect())),
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
