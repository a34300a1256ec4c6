//! What editor and server agree on.

use crate::client_support::ClientSupport;
use crate::command;
use crate::requests::{actions, tokens};
use crate::server_state::ServerState;
use crate::{folders, position};
use quillet_ide::Settings;
use quillet_syntax::Encoding;
use tower_lsp::lsp_types::{
    CallHierarchyServerCapability, CodeActionOptions, CodeLensOptions, CompletionOptions,
    DiagnosticOptions, DiagnosticServerCapabilities, DocumentLinkOptions,
    DocumentOnTypeFormattingOptions, ExecuteCommandOptions, FileOperationFilter,
    FileOperationPattern, FileOperationPatternKind, FileOperationRegistrationOptions,
    FoldingRangeProviderCapability, HoverProviderCapability, InitializeParams, InitializeResult,
    LinkedEditingRangeServerCapabilities, OneOf, RenameOptions, SelectionRangeProviderCapability,
    SemanticTokensFullOptions, SemanticTokensOptions, ServerCapabilities, ServerInfo,
    SignatureHelpOptions, TextDocumentSyncCapability, TextDocumentSyncKind,
    TextDocumentSyncOptions, TextDocumentSyncSaveOptions, TypeDefinitionProviderCapability,
    WorkDoneProgressOptions, WorkspaceFileOperationsServerCapabilities,
    WorkspaceFoldersServerCapabilities, WorkspaceServerCapabilities,
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
    ServerCapabilities {
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
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some(characters(" .\"(=")),
            resolve_provider: Some(true),
            ..CompletionOptions::default()
        }),
        signature_help_provider: Some(SignatureHelpOptions {
            trigger_characters: Some(characters(" ")),
            ..SignatureHelpOptions::default()
        }),
        definition_provider: Some(OneOf::Left(true)),
        type_definition_provider: Some(TypeDefinitionProviderCapability::Simple(true)),
        references_provider: Some(OneOf::Left(true)),
        document_highlight_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        })),
        linked_editing_range_provider: Some(LinkedEditingRangeServerCapabilities::Simple(true)),
        document_symbol_provider: Some(OneOf::Left(true)),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        document_formatting_provider: Some(OneOf::Left(true)),
        document_range_formatting_provider: Some(OneOf::Left(true)),
        document_on_type_formatting_provider: Some(DocumentOnTypeFormattingOptions {
            first_trigger_character: "}".into(),
            more_trigger_character: Some(vec!["\n".into()]),
        }),
        code_action_provider: Some(
            CodeActionOptions {
                code_action_kinds: Some(actions::kinds()),
                ..CodeActionOptions::default()
            }
            .into(),
        ),
        code_lens_provider: Some(CodeLensOptions {
            resolve_provider: Some(false),
        }),
        inlay_hint_provider: Some(OneOf::Left(true)),
        call_hierarchy_provider: Some(CallHierarchyServerCapability::Simple(true)),
        execute_command_provider: Some(ExecuteCommandOptions {
            commands: command::names(),
            ..ExecuteCommandOptions::default()
        }),
        folding_range_provider: Some(FoldingRangeProviderCapability::Simple(true)),
        selection_range_provider: Some(SelectionRangeProviderCapability::Simple(true)),
        document_link_provider: Some(DocumentLinkOptions {
            resolve_provider: Some(false),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        }),
        semantic_tokens_provider: Some(
            SemanticTokensOptions {
                legend: tokens::legend(),
                range: Some(true),
                full: Some(SemanticTokensFullOptions::Bool(true)),
                ..SemanticTokensOptions::default()
            }
            .into(),
        ),
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
    }
}

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
