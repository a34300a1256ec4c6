//! What a document does to its pens beside a revision: a request of our own, `quillet/compare`, and
//! the lenses that tell of it.

use crate::server_state::{RequestContext, path_of};
use quillet_ide::{Analysis, ComparedPages, Lens};
use serde::{Deserialize, Serialize};
use std::path::Path;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::TextDocumentIdentifier;

/// What is asked for.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "camelCase")]
pub(crate) struct CompareParams {
    /// The document.
    pub(crate) text_document: TextDocumentIdentifier,
    /// The revision it is compared with; that of the settings where none is named.
    #[serde(default)]
    pub(crate) revision: Option<String>,
}

/// The comparison in every form.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct CompareAnswer {
    html: String,
    markdown: String,
    json: String,
}

/// A document beside a revision.
///
/// # Errors
///
/// A sentence that says why the revision, or the document, cannot be had.
pub(crate) fn compare(asked: &RequestContext, params: &CompareParams) -> Result<CompareAnswer> {
    let path = path_of(&params.text_document.uri);
    let pages = pages(asked, &path, params.revision.as_deref())?;
    Ok(CompareAnswer {
        html: pages.html,
        markdown: pages.markdown,
        json: pages.json,
    })
}

/// The pages of a file beside a revision.
///
/// # Errors
///
/// As [`compare`].
pub(crate) fn pages(
    asked: &RequestContext,
    path: &Path,
    revision: Option<&str>,
) -> Result<ComparedPages> {
    let wanted = asked.snapshot.settings().compare_with();
    let name = revision.filter(|it| !it.is_empty()).unwrap_or(wanted);
    let name = if name.is_empty() { "HEAD" } else { name };
    let past = asked.pasts.patiently(path, name);
    let past = past.map_err(Error::invalid_params)?;
    let found = quillet_ide::compared(&asked.snapshot, path, &past);
    found.ok_or_else(|| Error::invalid_params("a file of this pen cannot be read"))
}

/// What a lens says of a document since the revision of the settings; nothing without git, without a
/// repository, without that revision, without the file in it, or where git takes too long.
pub(crate) fn lenses(asked: &RequestContext, path: &Path, analysis: &Analysis) -> Vec<Lens> {
    let name = asked.snapshot.settings().compare_with();
    if name.is_empty() || !path.is_absolute() {
        return Vec::new();
    }
    match asked.pasts.of(path, name) {
        Ok(past) if past.has(path) => {
            quillet_ide::lenses_since(&asked.snapshot, path, analysis, &past)
        }
        Ok(_) => {
            let file = path.display();
            asked
                .pasts
                .say(format!("not compared with {name}: {file} is not in it"));
            Vec::new()
        }
        Err(_) => Vec::new(),
    }
}
