//! Where names come from and where they are used.

use crate::position::PositionMap;
use crate::server_state::RequestContext;
use quillet_ide::NameLocation;
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

/// Where the name at a place is defined.
pub(crate) fn definition(
    asked: &RequestContext,
    params: &GotoDefinitionParams,
) -> Result<Option<GotoDefinitionResponse>> {
    asked.at(&params.text_document_position_params, |_, cursor| {
        let target = quillet_ide::definition(cursor)?;
        let location = Targets::new(asked).location(&target.path, target.name)?;
        Some(GotoDefinitionResponse::Scalar(location))
    })
}

/// What the thing at a place is made of or cut to.
pub(crate) fn type_definition(
    asked: &RequestContext,
    params: &GotoDefinitionParams,
) -> Result<Option<GotoDefinitionResponse>> {
    asked.at(&params.text_document_position_params, |_, cursor| {
        let locations = locations(asked, &quillet_ide::type_definition(cursor));
        (!locations.is_empty()).then_some(GotoDefinitionResponse::Array(locations))
    })
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
        Some(locations(asked, &found))
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

fn locations(asked: &RequestContext, targets: &[NameLocation]) -> Vec<Location> {
    let mut places = Targets::new(asked);
    targets
        .iter()
        .filter_map(|target| places.location(&target.path, target.name))
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
