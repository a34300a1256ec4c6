//! What a document does to its pens beside a revision: a request of our own, `quillet/compare`, and
//! the lenses that tell of it.

use crate::server_state::{RequestContext, path_of};
use quillet_history::{Repository, Revision, Top};
use quillet_ide::{Analysis, Before, ComparedPages, Lens};
use quillet_model::SourceFile;
use serde::{Deserialize, Serialize};
use std::path::Path;
use std::sync::mpsc;
use std::time::Duration;
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

/// Git is waited for so long before lenses go without it.
const PATIENCE: Duration = Duration::from_secs(2);

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
    let side = Side::of(path, name).map_err(Error::invalid_params)?;
    let before = side.before(path, name);
    let found = quillet_ide::compared(&asked.snapshot, path, &before);
    found.ok_or_else(|| Error::invalid_params("a file of this pen cannot be read"))
}

/// What a lens says of a document since the revision of the settings; nothing without git, without a
/// repository, without that revision, or where git takes too long.
pub(crate) fn lenses(asked: &RequestContext, path: &Path, analysis: &Analysis) -> Vec<Lens> {
    let name = asked.snapshot.settings().compare_with().to_owned();
    if name.is_empty() || !path.is_absolute() {
        return Vec::new();
    }
    let (done, found) = mpsc::channel();
    let (file, revision) = (path.to_owned(), name.clone());
    std::thread::spawn(move || {
        // Who asked may have lost patience.
        let _ = done.send(Side::of(&file, &revision));
    });
    let Ok(Ok(side)) = found.recv_timeout(PATIENCE) else {
        return Vec::new();
    };
    let before = side.before(path, &name);
    match before.is_there {
        true => quillet_ide::lenses_since(&asked.snapshot, path, analysis, &before),
        false => Vec::new(),
    }
}

/// A revision, and how its files are called.
struct Side {
    revision: Revision,
    name: Box<dyn Fn(&SourceFile) -> String + Send + Sync>,
}

impl Side {
    fn of(path: &Path, revision: &str) -> std::result::Result<Side, String> {
        let folder = path.parent().unwrap_or(Path::new(""));
        let repository = Repository::around(folder).map_err(|error| error.to_string())?;
        let revision = repository
            .revision(revision)
            .map_err(|error| error.to_string())?;
        let top: Top = repository.top;
        let name = move |file: &SourceFile| {
            let inside = top.path_in(&file.path);
            let path = inside.as_deref().unwrap_or(&file.path);
            let parts = path.components().map(|it| it.as_os_str().to_string_lossy());
            parts.collect::<Vec<_>>().join("/")
        };
        Ok(Side {
            revision,
            name: Box::new(name),
        })
    }

    fn before<'a>(&'a self, path: &Path, called: &'a str) -> Before<'a> {
        Before {
            source: &self.revision,
            is_there: self.revision.entry(path).is_some(),
            name: &*self.name,
            called,
        }
    }
}
