//! Questions of the protocol, each put to `ide` and its answer carried back; one kind a file, a question
//! a row. An answer of a shape that others have, as places to go to, needs no more than its row.

pub(crate) mod actions;
pub(crate) mod choices;
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

/// The questions, a row each: its method, what the protocol calls it, who answers, and what the server
/// says it can. The server's methods and its capabilities are made of them.
macro_rules! questions {
    ($made:ident) => {
        $made! {
            hover: HoverRequest => requests::hover::hover,
                |it| it.hover_provider = Some(lsp_types::HoverProviderCapability::Simple(true));
            signature_help: SignatureHelpRequest => requests::hover::signature,
                |it| it.signature_help_provider = Some(lsp_types::SignatureHelpOptions {
                    trigger_characters: Some(characters(" ")),
                    ..lsp_types::SignatureHelpOptions::default()
                });
            completion: Completion => requests::completion::complete,
                |it| it.completion_provider = Some(lsp_types::CompletionOptions {
                    trigger_characters: Some(characters(" .\"(=")),
                    resolve_provider: Some(true),
                    ..lsp_types::CompletionOptions::default()
                });
            completion_resolve: ResolveCompletionItem => requests::completion::resolve, |_| ();
            goto_definition: GotoDefinition => requests::names::goto(quillet_ide::definition),
                |it| it.definition_provider = Some(lsp_types::OneOf::Left(true));
            goto_type_definition: GotoTypeDefinition => requests::names::goto(quillet_ide::type_definition),
                |it| it.type_definition_provider = Some(true.into());
            references: References => requests::names::references,
                |it| it.references_provider = Some(lsp_types::OneOf::Left(true));
            document_highlight: DocumentHighlightRequest => requests::names::highlights,
                |it| it.document_highlight_provider = Some(lsp_types::OneOf::Left(true));
            linked_editing_range: LinkedEditingRange => requests::names::linked,
                |it| it.linked_editing_range_provider = Some(lsp_types::LinkedEditingRangeServerCapabilities::Simple(true));
            prepare_rename: PrepareRenameRequest => requests::rename::prepare, |_| ();
            rename: Rename => requests::rename::rename,
                |it| it.rename_provider = Some(lsp_types::OneOf::Right(lsp_types::RenameOptions {
                    prepare_provider: Some(true),
                    work_done_progress_options: lsp_types::WorkDoneProgressOptions::default(),
                }));
            will_rename_files: WillRenameFiles => requests::rename::files, |_| ();
            folding_range: FoldingRangeRequest => requests::structure::folds,
                |it| it.folding_range_provider = Some(true.into());
            selection_range: SelectionRangeRequest => requests::structure::selections,
                |it| it.selection_range_provider = Some(true.into());
            document_link: DocumentLinkRequest => requests::structure::links,
                |it| it.document_link_provider = Some(lsp_types::DocumentLinkOptions {
                    resolve_provider: Some(false),
                    work_done_progress_options: lsp_types::WorkDoneProgressOptions::default(),
                });
            semantic_tokens_full: SemanticTokensFullRequest => requests::tokens::full,
                |it| it.semantic_tokens_provider = Some(requests::tokens::options().into());
            semantic_tokens_range: SemanticTokensRangeRequest => requests::tokens::range, |_| ();
            document_symbol: DocumentSymbolRequest => requests::symbols::document,
                |it| it.document_symbol_provider = Some(lsp_types::OneOf::Left(true));
            formatting: Formatting => requests::formatting::whole,
                |it| it.document_formatting_provider = Some(lsp_types::OneOf::Left(true));
            range_formatting: RangeFormatting => requests::formatting::range,
                |it| it.document_range_formatting_provider = Some(lsp_types::OneOf::Left(true));
            on_type_formatting: OnTypeFormatting => requests::formatting::on_type,
                |it| it.document_on_type_formatting_provider = Some(lsp_types::DocumentOnTypeFormattingOptions {
                    first_trigger_character: "}".into(),
                    more_trigger_character: Some(vec!["\n".into()]),
                });
            code_action: CodeActionRequest => requests::actions::actions,
                |it| it.code_action_provider = Some(requests::actions::options().into());
            inlay_hint: InlayHintRequest => requests::inlay::hints,
                |it| it.inlay_hint_provider = Some(lsp_types::OneOf::Left(true));
            prepare_call_hierarchy: CallHierarchyPrepare => requests::hierarchy::prepare,
                |it| it.call_hierarchy_provider = Some(true.into());
            incoming_calls: CallHierarchyIncomingCalls => requests::hierarchy::incoming, |_| ();
            outgoing_calls: CallHierarchyOutgoingCalls => requests::hierarchy::outgoing, |_| ();
        }
    };
}
pub(crate) use questions;

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
