//! What the editor can do, as it said in `initialize`.

use tower_lsp::lsp_types::ClientCapabilities;

/// The gifts of the editor that change what it is told.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct EditorCan {
    /// It asks for diagnostics by itself; nothing is pushed.
    pub(crate) pulls: bool,
    /// It asks again when told that diagnostics elsewhere changed.
    pub(crate) refreshes_diagnostics: bool,
}

impl EditorCan {
    /// Reads the editor's capabilities.
    pub(crate) fn of(editor: &ClientCapabilities) -> Self {
        let document = editor.text_document.as_ref();
        let workspace = editor.workspace.as_ref();
        Self {
            pulls: document.is_some_and(|document| document.diagnostic.is_some()),
            refreshes_diagnostics: workspace
                .and_then(|workspace| workspace.diagnostic.as_ref())
                .is_some_and(|diagnostic| diagnostic.refresh_support == Some(true)),
        }
    }
}
