//! Questions of the protocol, each put to `ide` and its answer carried back; one kind a file.

pub(crate) mod actions;
pub(crate) mod compare;
pub(crate) mod completion;
pub(crate) mod formatting;
pub(crate) mod hierarchy;
pub(crate) mod hover;
pub(crate) mod inlay;
pub(crate) mod names;
pub(crate) mod preview;
pub(crate) mod rename;
pub(crate) mod structure;
pub(crate) mod symbols;
pub(crate) mod tokens;

use crate::position::PositionMap;
use crate::server_state::{RequestContext, path_of};
use quillet_ide::{Analysis, Cursor};
use quillet_model::SourceFile;
use quillet_syntax::Span;
use std::sync::Arc;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{Position, Range, TextDocumentPositionParams, Url};

/// A document that a question is about.
pub(crate) struct Document {
    pub(crate) analysis: Arc<Analysis>,
    pub(crate) file: Arc<SourceFile>,
    pub(crate) lines: PositionMap,
}

impl RequestContext {
    /// The document at an address; none where there is none, or nobody waits any more.
    pub(crate) fn document(&self, url: &Url) -> Option<Document> {
        let path = path_of(url);
        let analysis = self.snapshot.analysis(&path, &|| self.cancel.is_off())?;
        let file = analysis.files().first()?.clone();
        let lines = PositionMap::new(file.text.clone(), self.encoding);
        Some(Document {
            analysis,
            file,
            lines,
        })
    }

    /// Puts a question about a place.
    ///
    /// # Errors
    /// When the place lies past the end of the document.
    pub(crate) fn at<T>(
        &self,
        place: &TextDocumentPositionParams,
        question: impl FnOnce(&Document, Cursor<'_>) -> Option<T>,
    ) -> Result<Option<T>> {
        let Some(document) = self.document(&place.text_document.uri) else {
            return Ok(None);
        };
        let cursor = document.cursor(place.position)?;
        Ok(cursor.and_then(|cursor| question(&document, cursor)))
    }
}

impl Document {
    /// A document and the bytes of a range of it; none where there is none.
    ///
    /// # Errors
    /// When the range lies past the end.
    pub(crate) fn within(
        asked: &RequestContext,
        url: &Url,
        range: Range,
    ) -> Result<Option<(Self, Span)>> {
        let Some(document) = asked.document(url) else {
            return Ok(None);
        };
        let offset = |place: Position| {
            let offset = document.lines.offset(place);
            offset.ok_or_else(|| beyond(place, document.lines.count()))
        };
        let (start, end) = (offset(range.start)?, offset(range.end)?);
        let span = Span::new(document.file.id, start.min(end), end);
        Ok(Some((document, span)))
    }

    /// A place in it.
    ///
    /// # Errors
    /// When it lies past the end.
    pub(crate) fn cursor(&self, place: Position) -> Result<Option<Cursor<'_>>> {
        let offset = self
            .lines
            .offset(place)
            .ok_or_else(|| beyond(place, self.lines.count()))?;
        Ok(Cursor::at(&self.analysis, offset))
    }
}

fn beyond(place: Position, count: u32) -> Error {
    Error::invalid_params(format!(
        "line {} of a document of {count} lines",
        place.line
    ))
}
