//! The picture beside the text: a request of our own, `quillet/preview`, and a notification,
//! `quillet/previewChanged`, when it would come out otherwise.

use crate::server_state::RequestContext;
use quillet_ide::Preview;
use serde::{Deserialize, Serialize};
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{Position, TextDocumentIdentifier, TextDocumentPositionParams, Url};

/// What is asked for: the pen or part at a place, or of a name.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "camelCase")]
pub(crate) struct PreviewParams {
    /// The document.
    pub(crate) text_document: TextDocumentIdentifier,
    /// A place in it.
    #[serde(default)]
    pub(crate) position: Option<Position>,
    /// A name, which counts before the place.
    #[serde(default)]
    pub(crate) name: Option<String>,
}

/// A picture with its measures.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct PreviewAnswer {
    name: String,
    title: String,
    pictures: Vec<Picture>,
    legend: Vec<String>,
    measures: Vec<Measure>,
}

#[derive(Clone, Debug, Serialize)]
struct Picture {
    name: String,
    svg: String,
}

#[derive(Clone, Debug, Serialize)]
struct Measure {
    name: String,
    value: String,
}

/// A document of which a preview was asked for has changed.
pub(crate) enum PreviewChanged {}

impl tower_lsp::lsp_types::notification::Notification for PreviewChanged {
    type Params = PreviewChangedParams;
    const METHOD: &'static str = "quillet/previewChanged";
}

/// Which document, and the version it now has.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct PreviewChangedParams {
    pub(crate) uri: Url,
    pub(crate) version: Option<i32>,
}

/// The picture of the pen or part asked for.
pub(crate) fn preview(
    asked: &RequestContext,
    params: &PreviewParams,
) -> Result<Option<PreviewAnswer>> {
    let place = TextDocumentPositionParams {
        text_document: params.text_document.clone(),
        position: params.position.unwrap_or_default(),
    };
    asked.at(&place, |_, cursor| {
        let found = match &params.name {
            Some(name) => quillet_ide::preview_of(cursor.analysis, name)?,
            None => quillet_ide::preview(cursor)?,
        };
        Some(carried(found))
    })
}

fn carried(found: Preview) -> PreviewAnswer {
    let pictures = found.pictures.into_iter();
    let measures = found.measures.into_iter();
    PreviewAnswer {
        name: found.name,
        title: found.title,
        pictures: pictures
            .map(|it| Picture {
                name: it.name,
                svg: it.svg,
            })
            .collect(),
        legend: found.legend,
        measures: measures
            .map(|(name, value)| Measure { name, value })
            .collect(),
    }
}
