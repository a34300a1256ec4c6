//! Diagnostics for an editor that asks for them.

use crate::queue::Priority;
use crate::server_state::{ServerState, SessionState, path_of};
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::Path;
use tower_lsp::lsp_types::{
    Diagnostic, DocumentDiagnosticParams, DocumentDiagnosticReport, FullDocumentDiagnosticReport,
    RelatedFullDocumentDiagnosticReport, RelatedUnchangedDocumentDiagnosticReport,
    UnchangedDocumentDiagnosticReport, WorkspaceDiagnosticParams, WorkspaceDiagnosticReport,
    WorkspaceDocumentDiagnosticReport, WorkspaceFullDocumentDiagnosticReport,
    WorkspaceUnchangedDocumentDiagnosticReport,
};

/// The diagnostics of one document, when its text has been checked.
pub(crate) async fn document(
    server: &ServerState,
    params: DocumentDiagnosticParams,
) -> DocumentDiagnosticReport {
    let path = path_of(&params.text_document.uri);
    let items = when(server, |state| {
        if state.queue.holds(&path) {
            return None;
        }
        if !state.shown.knows(&path) {
            state.queue.ask(&path, Priority::Edited);
            server.wake();
            return None;
        }
        Some(found(state, &path))
    })
    .await;
    match report(items, params.previous_result_id.as_deref()) {
        Report::Full(full) => RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: full,
        }
        .into(),
        Report::Unchanged(unchanged) => RelatedUnchangedDocumentDiagnosticReport {
            related_documents: None,
            unchanged_document_diagnostic_report: unchanged,
        }
        .into(),
    }
}

/// The diagnostics of every file, when all have been checked.
pub(crate) async fn workspace(
    server: &ServerState,
    params: WorkspaceDiagnosticParams,
) -> WorkspaceDiagnosticReport {
    let all = when(server, |state| {
        state.is_settled().then(|| {
            let files = state.shown.files();
            let report = |path: &Path| {
                let version = state.open.get(path).map(|open| i64::from(open.version));
                Some((state.url(path)?, version, found(state, path)))
            };
            files
                .iter()
                .filter_map(|path| report(path))
                .collect::<Vec<_>>()
        })
    })
    .await;
    let known: BTreeMap<_, _> = params
        .previous_result_ids
        .into_iter()
        .map(|previous| (previous.uri, previous.value))
        .collect();
    let items = all.into_iter().map(|(uri, version, items)| {
        match report(items, known.get(&uri).map(String::as_str)) {
            Report::Full(full_document_diagnostic_report) => {
                WorkspaceDocumentDiagnosticReport::Full(WorkspaceFullDocumentDiagnosticReport {
                    uri,
                    version,
                    full_document_diagnostic_report,
                })
            }
            Report::Unchanged(unchanged_document_diagnostic_report) => {
                WorkspaceDocumentDiagnosticReport::Unchanged(
                    WorkspaceUnchangedDocumentDiagnosticReport {
                        uri,
                        version,
                        unchanged_document_diagnostic_report,
                    },
                )
            }
        }
    });
    WorkspaceDiagnosticReport {
        items: items.collect(),
    }
}

/// Asks after every check until there is an answer.
async fn when<T>(
    server: &ServerState,
    mut answer: impl FnMut(&mut SessionState) -> Option<T>,
) -> T {
    loop {
        let mut checked = std::pin::pin!(server.checked.notified());
        // From here on no check can end unnoticed.
        checked.as_mut().enable();
        let answer = answer(&mut server.state());
        match answer {
            Some(answer) => return answer,
            None => checked.await,
        }
    }
}

fn found(state: &SessionState, path: &Path) -> Vec<Diagnostic> {
    state
        .shown
        .gather(path, state.workspace.text(path).as_ref())
}

enum Report {
    Full(FullDocumentDiagnosticReport),
    Unchanged(UnchangedDocumentDiagnosticReport),
}

fn report(items: Vec<Diagnostic>, previous: Option<&str>) -> Report {
    let result_id = fingerprint(&items);
    match previous == Some(&result_id) {
        true => Report::Unchanged(UnchangedDocumentDiagnosticReport { result_id }),
        false => Report::Full(FullDocumentDiagnosticReport {
            result_id: Some(result_id),
            items,
        }),
    }
}

/// The same for the same diagnostics, within one session.
fn fingerprint(items: &[Diagnostic]) -> String {
    let mut hasher = DefaultHasher::new();
    for item in items {
        // A diagnostic holds no map, so its JSON is always the same.
        serde_json::to_string(item)
            .unwrap_or_default()
            .hash(&mut hasher);
    }
    format!("{:016x}", hasher.finish())
}
