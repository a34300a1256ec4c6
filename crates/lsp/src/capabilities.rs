//! What editor and server agree on.

use crate::desk::Desk;
use crate::editor::EditorCan;
use crate::position::Encoding;
use tower_lsp::lsp_types::{
    DiagnosticOptions, DiagnosticServerCapabilities, InitializeParams, InitializeResult,
    ServerCapabilities, ServerInfo, TextDocumentSyncCapability, TextDocumentSyncKind,
    TextDocumentSyncOptions,
};

/// Notes what the editor can do and answers with what this server can.
pub(crate) fn agree(desk: &Desk, params: &InitializeParams) -> InitializeResult {
    let encoding = Encoding::agreed(&params.capabilities);
    let mut state = desk.state();
    state.encoding = encoding;
    state.editor = EditorCan::of(&params.capabilities);
    InitializeResult {
        capabilities: capabilities(encoding),
        server_info: Some(ServerInfo {
            name: "quillet".into(),
            version: Some(env!("CARGO_PKG_VERSION").into()),
        }),
    }
}

fn capabilities(encoding: Encoding) -> ServerCapabilities {
    ServerCapabilities {
        position_encoding: Some(encoding.kind()),
        text_document_sync: Some(TextDocumentSyncCapability::Options(
            TextDocumentSyncOptions {
                open_close: Some(true),
                change: Some(TextDocumentSyncKind::INCREMENTAL),
                ..TextDocumentSyncOptions::default()
            },
        )),
        diagnostic_provider: Some(DiagnosticServerCapabilities::Options(DiagnosticOptions {
            identifier: Some("quillet".into()),
            inter_file_dependencies: true,
            workspace_diagnostics: true,
            ..DiagnosticOptions::default()
        })),
        ..ServerCapabilities::default()
    }
}
