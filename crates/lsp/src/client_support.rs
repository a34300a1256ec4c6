//! What the editor can do, as it said in `initialize`.

use tower_lsp::lsp_types::{ClientCapabilities, MarkupKind};

/// The gifts of the editor that change what it is told.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct ClientSupport {
    /// It asks for diagnostics by itself; nothing is pushed.
    pub(crate) pulls: bool,
    /// It asks again when told that diagnostics elsewhere changed.
    pub(crate) refreshes_diagnostics: bool,
    /// It asks again when told that inlay hints changed.
    pub(crate) refreshes_hints: bool,
    /// It asks again when told that code lenses changed.
    pub(crate) refreshes_lenses: bool,
    /// It asks again when told that the colours of words changed.
    pub(crate) refreshes_tokens: bool,
    /// It takes edits with the version of the text that they are of.
    pub(crate) versioned_edits: bool,
    /// It colours by a grammar of its own, and the server's tokens only add to that.
    pub(crate) augments_tokens: bool,
    /// It would rather have hovers without marks than in Markdown.
    pub(crate) plain_hovers: bool,
    /// It would rather have what is told of a choice without marks than in Markdown.
    pub(crate) plain_documentation: bool,
    /// It shows progress that the server begins.
    pub(crate) shows_progress: bool,
    /// It watches files where it is asked to.
    pub(crate) watches_files: bool,
    /// It can be asked for its settings.
    pub(crate) has_settings: bool,
    /// It opens documents it is asked to show.
    pub(crate) shows_documents: bool,
    /// It shows pictures in hovers.
    pub(crate) shows_pictures: bool,
    /// It takes snippets in completions.
    pub(crate) snippets: bool,
}

impl ClientSupport {
    /// Reads the editor's capabilities.
    pub(crate) fn of(editor: &ClientCapabilities) -> Self {
        let document = editor.text_document.as_ref();
        let workspace = editor.workspace.as_ref();
        Self {
            pulls: document.is_some_and(|document| document.diagnostic.is_some()),
            refreshes_diagnostics: workspace
                .and_then(|workspace| workspace.diagnostic.as_ref())
                .is_some_and(|diagnostic| diagnostic.refresh_support == Some(true)),
            refreshes_hints: workspace
                .and_then(|workspace| workspace.inlay_hint.as_ref())
                .is_some_and(|hint| hint.refresh_support == Some(true)),
            refreshes_lenses: workspace
                .and_then(|workspace| workspace.code_lens.as_ref())
                .is_some_and(|lens| lens.refresh_support == Some(true)),
            refreshes_tokens: workspace
                .and_then(|workspace| workspace.semantic_tokens.as_ref())
                .is_some_and(|tokens| tokens.refresh_support == Some(true)),
            versioned_edits: workspace
                .and_then(|workspace| workspace.workspace_edit.as_ref())
                .is_some_and(|edit| edit.document_changes == Some(true)),
            augments_tokens: document
                .and_then(|document| document.semantic_tokens.as_ref())
                .is_some_and(|tokens| tokens.augments_syntax_tokens == Some(true)),
            plain_hovers: document
                .and_then(|document| document.hover.as_ref())
                .and_then(|hover| hover.content_format.as_ref()?.first())
                .is_some_and(|first| *first == MarkupKind::PlainText),
            plain_documentation: document
                .and_then(|document| document.completion.as_ref())
                .and_then(|completion| completion.completion_item.as_ref())
                .and_then(|item| item.documentation_format.as_ref()?.first())
                .is_some_and(|first| *first == MarkupKind::PlainText),
            shows_progress: editor
                .window
                .as_ref()
                .is_some_and(|window| window.work_done_progress == Some(true)),
            watches_files: workspace
                .and_then(|workspace| workspace.did_change_watched_files.as_ref())
                .is_some_and(|watched| watched.dynamic_registration == Some(true)),
            has_settings: workspace.is_some_and(|workspace| workspace.configuration == Some(true)),
            shows_documents: editor
                .window
                .as_ref()
                .and_then(|window| window.show_document.as_ref())
                .is_some_and(|show| show.support),
            shows_pictures: false,
            snippets: document
                .and_then(|document| document.completion.as_ref())
                .and_then(|completion| completion.completion_item.as_ref())
                .is_some_and(|item| item.snippet_support == Some(true)),
        }
    }
}
