//! Where names come from and where they are used.

use crate::position::PositionMap;
use crate::server_state::RequestContext;
use quillet_ide::{Cursor, NameLocation};
use quillet_model::SourceFile;
use quillet_syntax::Span;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    DocumentHighlight, DocumentHighlightKind, DocumentHighlightParams, GotoDefinitionParams,
    GotoDefinitionResponse, LinkedEditingRangeParams, LinkedEditingRanges, Location,
    ReferenceParams, Url,
};

/// Answers a question about a place with the places that its answer names; nowhere where it names none.
pub(crate) fn goto<N: IntoIterator<Item = NameLocation>>(
    question: impl Fn(Cursor<'_>) -> N,
) -> impl Fn(&RequestContext, &GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
    move |asked, params| {
        asked.at(&params.text_document_position_params, |_, cursor| {
            let found = locations(asked, question(cursor));
            (!found.is_empty()).then(|| found.into())
        })
    }
}

/// Where the name at a place is used.
pub(crate) fn references(
    asked: &RequestContext,
    params: &ReferenceParams,
) -> Result<Option<Vec<Location>>> {
    let with_definition = params.context.include_declaration;
    asked.at(&params.text_document_position, |_, cursor| {
        let off = || asked.cancel.is_off();
        let found = quillet_ide::references(&asked.snapshot, cursor, with_definition, &off);
        Some(locations(asked, found))
    })
}

/// Where the name at a place stands in the document.
pub(crate) fn highlights(
    asked: &RequestContext,
    params: &DocumentHighlightParams,
) -> Result<Option<Vec<DocumentHighlight>>> {
    asked.at(&params.text_document_position_params, |document, cursor| {
        let found = quillet_ide::highlights(cursor).into_iter();
        let highlights = found.map(|(span, defines)| DocumentHighlight {
            range: document.lines.range(span.range()),
            kind: Some(match defines {
                true => DocumentHighlightKind::WRITE,
                false => DocumentHighlightKind::READ,
            }),
        });
        Some(highlights.collect())
    })
}

/// Where an end's name is changed together with the one at a place.
pub(crate) fn linked(
    asked: &RequestContext,
    params: &LinkedEditingRangeParams,
) -> Result<Option<LinkedEditingRanges>> {
    asked.at(&params.text_document_position_params, |document, cursor| {
        let spans = quillet_ide::linked(cursor)?;
        let ranges = spans
            .iter()
            .map(|span| document.lines.range(span.range()))
            .collect();
        let word_pattern = Some("[a-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*".to_owned());
        Some(LinkedEditingRanges {
            ranges,
            word_pattern,
        })
    })
}

fn locations(
    asked: &RequestContext,
    names: impl IntoIterator<Item = NameLocation>,
) -> Vec<Location> {
    let mut places = Targets::new(asked);
    names
        .into_iter()
        .filter_map(|name| places.location(&name.path, name.name))
        .collect()
}

/// Places in any file, each file's lines counted once.
pub(crate) struct Targets<'a> {
    asked: &'a RequestContext,
    files: BTreeMap<PathBuf, Option<IndexedText>>,
}

struct IndexedText {
    url: Url,
    lines: PositionMap,
}

impl<'a> Targets<'a> {
    /// Nothing counted yet.
    pub(crate) fn new(asked: &'a RequestContext) -> Self {
        Self {
            asked,
            files: BTreeMap::new(),
        }
    }

    /// The location of a span.
    pub(crate) fn location(&mut self, path: &Path, span: Span) -> Option<Location> {
        let asked = self.asked;
        let open = || {
            let url = asked.url(path)?;
            let file: Arc<SourceFile> = asked.snapshot.file(path)?;
            Some(IndexedText {
                url,
                lines: PositionMap::new(file.text.clone(), asked.encoding),
            })
        };
        let found = self
            .files
            .entry(path.to_path_buf())
            .or_insert_with(open)
            .as_ref()?;
        Some(Location {
            uri: found.url.clone(),
            range: found.lines.range(span.range()),
        })
    }
}
