//! What editor and server agree on.

use crate::client_support::ClientSupport;
use crate::command;
use crate::requests::{self, questions};
use crate::server_state::ServerState;
use crate::{folders, position};
use quillet_ide::Settings;
use quillet_syntax::Encoding;
use tower_lsp::lsp_types::{
    self, CodeLensOptions, DiagnosticOptions, DiagnosticServerCapabilities, ExecuteCommandOptions,
    FileOperationFilter, FileOperationPattern, FileOperationPatternKind,
    FileOperationRegistrationOptions, InitializeParams, InitializeResult, OneOf,
    ServerCapabilities, ServerInfo, TextDocumentSyncCapability, TextDocumentSyncKind,
    TextDocumentSyncOptions, TextDocumentSyncSaveOptions,
    WorkspaceFileOperationsServerCapabilities, WorkspaceFoldersServerCapabilities,
    WorkspaceServerCapabilities,
};

/// Notes what the editor can do and answers with what this server can.
pub(crate) fn agree(server: &ServerState, params: &InitializeParams) -> InitializeResult {
    let encoding = position::agreed(&params.capabilities);
    let mut state = server.state();
    state.encoding = encoding;
    state.folders = folders::of(params);
    state.editor = ClientSupport::of(&params.capabilities);
    // No capability says so; these are known to.
    let name = params.client_info.as_ref().map(|info| info.name.as_str());
    let pictures = name.is_some_and(|name| name.contains("Code") || name.contains("code-server"));
    state.editor.shows_pictures = pictures;
    let pictures = Settings {
        pictures,
        ..Settings::default()
    };
    state.workspace.set_settings(pictures);
    InitializeResult {
        capabilities: capabilities(encoding),
        server_info: Some(ServerInfo {
            name: "quillet".into(),
            version: Some(env!("CARGO_PKG_VERSION").into()),
        }),
    }
}

fn capabilities(encoding: Encoding) -> ServerCapabilities {
    let mut all = ServerCapabilities {
        position_encoding: Some(position::name(encoding)),
        text_document_sync: Some(TextDocumentSyncCapability::Options(
            TextDocumentSyncOptions {
                open_close: Some(true),
                change: Some(TextDocumentSyncKind::INCREMENTAL),
                save: Some(TextDocumentSyncSaveOptions::Supported(true)),
                ..TextDocumentSyncOptions::default()
            },
        )),
        diagnostic_provider: Some(DiagnosticServerCapabilities::Options(DiagnosticOptions {
            identifier: Some("quillet".into()),
            inter_file_dependencies: true,
            workspace_diagnostics: true,
            ..DiagnosticOptions::default()
        })),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        code_lens_provider: Some(CodeLensOptions {
            resolve_provider: Some(false),
        }),
        execute_command_provider: Some(ExecuteCommandOptions {
            commands: command::names(),
            ..ExecuteCommandOptions::default()
        }),
        workspace: Some(WorkspaceServerCapabilities {
            workspace_folders: Some(WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(OneOf::Left(true)),
            }),
            file_operations: Some(WorkspaceFileOperationsServerCapabilities {
                will_rename: Some(FileOperationRegistrationOptions {
                    filters: files_and_folders(),
                }),
                ..WorkspaceFileOperationsServerCapabilities::default()
            }),
        }),
        ..ServerCapabilities::default()
    };
    answered(&mut all);
    all
}

/// Adds what each row of the questions says.
macro_rules! answered {
    ($($method:ident: $asked:ident => $answer:expr, $can:expr;)*) => {
        fn answered(all: &mut ServerCapabilities) {
            let each: &[fn(&mut ServerCapabilities)] = &[$($can),*];
            each.iter().for_each(|can| can(all));
        }
    };
}
questions!(answered);

/// Designs, and folders that may hold some.
fn files_and_folders() -> Vec<FileOperationFilter> {
    let filter = |glob: &str, kind| FileOperationFilter {
        scheme: Some("file".into()),
        pattern: FileOperationPattern {
            glob: glob.into(),
            matches: Some(kind),
            options: None,
        },
    };
    vec![
        filter("**/*.quillet", FileOperationPatternKind::File),
        filter("**", FileOperationPatternKind::Folder),
    ]
}

fn characters(all: &str) -> Vec<String> {
    all.chars().map(String::from).collect()
}
