//! What the protocol library calls, one line a message.

use crate::client_messages::{self, ClientMessages};
use crate::command;
use crate::debounce;
use crate::documents;
use crate::requests::compare::{CompareAnswer, CompareParams};
use crate::requests::preview::{PreviewAnswer, PreviewParams};
use crate::server_state::{RequestContext, ServerState, path_of};
use crate::session::Session;
use crate::{capabilities, pull, since, worker};
use crate::{client_process, folders, requests, settings};
use serde_json::Value;
use std::future::Future;
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::Notify;
use tokio::task::JoinSet;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    CallHierarchyIncomingCall, CallHierarchyIncomingCallsParams, CallHierarchyItem,
    CallHierarchyOutgoingCall, CallHierarchyOutgoingCallsParams, CallHierarchyPrepareParams,
    CodeActionParams, CodeActionResponse, CodeLens, CodeLensParams, CompletionItem,
    CompletionParams, CompletionResponse, DidChangeConfigurationParams,
    DidChangeTextDocumentParams, DidChangeWatchedFilesParams, DidChangeWorkspaceFoldersParams,
    DidCloseTextDocumentParams, DidOpenTextDocumentParams, DidSaveTextDocumentParams,
    DocumentDiagnosticParams, DocumentDiagnosticReportResult, DocumentFormattingParams,
    DocumentHighlight, DocumentHighlightParams, DocumentLink, DocumentLinkParams,
    DocumentOnTypeFormattingParams, DocumentRangeFormattingParams, DocumentSymbolParams,
    DocumentSymbolResponse, ExecuteCommandParams, FoldingRange, FoldingRangeParams,
    GotoDefinitionParams, GotoDefinitionResponse, Hover, HoverParams, InitializeParams,
    InitializeResult, InitializedParams, InlayHint, InlayHintParams, LinkedEditingRangeParams,
    LinkedEditingRanges, Location, MessageType, PrepareRenameResponse, ReferenceParams,
    RenameFilesParams, RenameParams, SelectionRange, SelectionRangeParams, SemanticTokensParams,
    SemanticTokensRangeParams, SemanticTokensRangeResult, SemanticTokensResult, SignatureHelp,
    SignatureHelpParams, SymbolInformation, TextDocumentPositionParams, TextEdit,
    WorkspaceDiagnosticParams, WorkspaceDiagnosticReportResult, WorkspaceEdit,
    WorkspaceSymbolParams,
};
use tower_lsp::{Client, LanguageServer};

/// One editor's server.
pub(crate) struct Server {
    server: Arc<ServerState>,
    outbox: ClientMessages,
    client: Client,
    /// The lanes, the messenger and what else runs on the side; all end with the session.
    tasks: Mutex<JoinSet<()>>,
    /// Told when the editor's process is gone.
    orphaned: Arc<Notify>,
}

impl Server {
    pub(crate) fn new(client: Client, session: Session, orphaned: Arc<Notify>) -> Self {
        let (outbox, messages) = ClientMessages::new();
        let server = Arc::new(ServerState::new(session));
        let mut tasks = JoinSet::new();
        tasks.spawn(client_messages::deliver(client.clone(), messages));
        tasks.spawn(debounce::release(server.clone(), outbox.clone()));
        // One worker more than needed keeps the edited file from waiting for a long check.
        let lanes = std::thread::available_parallelism().map_or(2, |count| count.get().max(2));
        for _ in 0..lanes {
            tasks.spawn(worker::run(server.clone(), outbox.clone()));
        }
        Self {
            server,
            outbox,
            client,
            tasks: Mutex::new(tasks),
            orphaned,
        }
    }

    /// A picture of the pen or part at a place; told when it would come out otherwise.
    pub(crate) async fn preview(&self, params: PreviewParams) -> Result<Option<PreviewAnswer>> {
        let path = path_of(&params.text_document.uri);
        self.server.state().previewed.insert(path);
        let question = move |asked: &RequestContext| requests::preview::preview(asked, &params);
        self.server.answer(question).await
    }

    /// A document beside a revision of git.
    pub(crate) async fn compare(&self, params: CompareParams) -> Result<CompareAnswer> {
        let question = move |asked: &RequestContext| requests::compare::compare(asked, &params);
        self.server.answer(question).await
    }

    /// Looks through the folders, on the side.
    fn scan(&self) {
        self.server.state().scans += 1;
        self.spawn(folders::scan(self.server.clone(), self.outbox.clone()));
    }

    /// Asks the editor for its settings, on the side.
    fn fetch_settings(&self) {
        let (client, server, outbox) = (
            self.client.clone(),
            self.server.clone(),
            self.outbox.clone(),
        );
        self.spawn(settings::fetch(client, server, outbox));
    }

    fn spawn(&self, task: impl Future<Output = ()> + Send + 'static) {
        let mut tasks = self.tasks.lock().unwrap_or_else(PoisonError::into_inner);
        tasks.spawn(task);
    }

    /// What the session knows.
    pub(crate) fn server(&self) -> &Arc<ServerState> {
        &self.server
    }
}

#[tower_lsp::async_trait]
impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        if let Some(id) = params.process_id {
            let orphaned = self.orphaned.clone();
            self.spawn(async move {
                client_process::gone(id).await;
                orphaned.notify_one();
            });
        }
        Ok(capabilities::agree(&self.server, &params))
    }

    async fn initialized(&self, _: InitializedParams) {
        self.outbox.watch_files(&self.server.state());
        self.fetch_settings();
        self.scan();
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        documents::opened(&self.server, params);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        if let Err(what) = documents::changed(&self.server, params) {
            self.outbox.log(MessageType::ERROR, what);
        }
    }

    async fn did_save(&self, params: DidSaveTextDocumentParams) {
        let path = path_of(&params.text_document.uri);
        self.spawn(since::saved(self.server.clone(), self.outbox.clone(), path));
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        documents::closed(&self.server, &self.outbox, &params);
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        // Held no longer than it is looked at: who takes settings over holds it too.
        let can_be_asked = self.server.state().editor.has_settings;
        match can_be_asked {
            true => self.fetch_settings(),
            false => settings::changed(&self.server, &self.outbox, &params.settings),
        }
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        folders::changed(&self.server, params);
        self.scan();
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        folders::watched(&self.server, &self.outbox, params);
    }

    async fn diagnostic(
        &self,
        params: DocumentDiagnosticParams,
    ) -> Result<DocumentDiagnosticReportResult> {
        let report = pull::document(&self.server, params).await;
        Ok(DocumentDiagnosticReportResult::Report(report))
    }

    async fn workspace_diagnostic(
        &self,
        params: WorkspaceDiagnosticParams,
    ) -> Result<WorkspaceDiagnosticReportResult> {
        let report = pull::workspace(&self.server, params).await;
        Ok(WorkspaceDiagnosticReportResult::Report(report))
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        self.server
            .answer(move |asked| requests::hover::hover(asked, &params))
            .await
    }

    async fn signature_help(&self, params: SignatureHelpParams) -> Result<Option<SignatureHelp>> {
        self.server
            .answer(move |asked| requests::hover::signature(asked, &params))
            .await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        self.server
            .answer(move |asked| requests::completion::complete(asked, &params))
            .await
    }

    async fn completion_resolve(&self, params: CompletionItem) -> Result<CompletionItem> {
        self.server
            .answer(move |asked| requests::completion::resolve(asked, params))
            .await
    }

    async fn goto_definition(
        &self,
        params: GotoDefinitionParams,
    ) -> Result<Option<GotoDefinitionResponse>> {
        self.server
            .answer(move |asked| requests::names::definition(asked, &params))
            .await
    }

    async fn goto_type_definition(
        &self,
        params: GotoDefinitionParams,
    ) -> Result<Option<GotoDefinitionResponse>> {
        self.server
            .answer(move |asked| requests::names::type_definition(asked, &params))
            .await
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        self.server
            .answer(move |asked| requests::names::references(asked, &params))
            .await
    }

    async fn document_highlight(
        &self,
        params: DocumentHighlightParams,
    ) -> Result<Option<Vec<DocumentHighlight>>> {
        self.server
            .answer(move |asked| requests::names::highlights(asked, &params))
            .await
    }

    async fn linked_editing_range(
        &self,
        params: LinkedEditingRangeParams,
    ) -> Result<Option<LinkedEditingRanges>> {
        self.server
            .answer(move |asked| requests::names::linked(asked, &params))
            .await
    }

    async fn prepare_rename(
        &self,
        params: TextDocumentPositionParams,
    ) -> Result<Option<PrepareRenameResponse>> {
        self.server
            .answer(move |asked| requests::rename::prepare(asked, &params))
            .await
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        self.server
            .answer(move |asked| requests::rename::rename(asked, &params))
            .await
    }

    async fn will_rename_files(&self, params: RenameFilesParams) -> Result<Option<WorkspaceEdit>> {
        self.server
            .answer(move |asked| Ok(requests::rename::files(asked, &params)))
            .await
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.server
            .answer(move |asked| Ok(requests::structure::folds(asked, &params)))
            .await
    }

    async fn selection_range(
        &self,
        params: SelectionRangeParams,
    ) -> Result<Option<Vec<SelectionRange>>> {
        self.server
            .answer(move |asked| requests::structure::selections(asked, &params))
            .await
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.server
            .answer(move |asked| Ok(requests::structure::links(asked, &params)))
            .await
    }

    async fn semantic_tokens_full(
        &self,
        params: SemanticTokensParams,
    ) -> Result<Option<SemanticTokensResult>> {
        self.server
            .answer(move |asked| requests::tokens::full(asked, &params))
            .await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        self.server
            .answer(move |asked| requests::tokens::range(asked, &params))
            .await
    }

    async fn document_symbol(
        &self,
        params: DocumentSymbolParams,
    ) -> Result<Option<DocumentSymbolResponse>> {
        self.server
            .answer(move |asked| requests::symbols::document(asked, &params))
            .await
    }

    async fn symbol(
        &self,
        params: WorkspaceSymbolParams,
    ) -> Result<Option<Vec<SymbolInformation>>> {
        self.server
            .answer(move |asked| requests::symbols::workspace(asked, &params))
            .await
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.server
            .answer(move |asked| requests::formatting::whole(asked, &params))
            .await
    }

    async fn range_formatting(
        &self,
        params: DocumentRangeFormattingParams,
    ) -> Result<Option<Vec<TextEdit>>> {
        self.server
            .answer(move |asked| requests::formatting::range(asked, &params))
            .await
    }

    async fn on_type_formatting(
        &self,
        params: DocumentOnTypeFormattingParams,
    ) -> Result<Option<Vec<TextEdit>>> {
        self.server
            .answer(move |asked| requests::formatting::on_type(asked, &params))
            .await
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        self.server
            .answer(move |asked| requests::actions::actions(asked, &params))
            .await
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        self.server
            .answer(move |asked| requests::inlay::hints(asked, &params))
            .await
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        let lenses = self
            .server
            .answer(move |asked| requests::inlay::lenses(asked, &params))
            .await;
        since::log(&self.server, &self.outbox);
        lenses
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        self.server
            .answer(move |asked| requests::hierarchy::prepare(asked, &params))
            .await
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        self.server
            .answer(move |asked| requests::hierarchy::incoming(asked, &params))
            .await
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        self.server
            .answer(move |asked| requests::hierarchy::outgoing(asked, &params))
            .await
    }

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<Value>> {
        command::execute(&self.server, &self.outbox, params).await
    }
}
