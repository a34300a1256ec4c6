//! What the protocol library calls.

use crate::client_messages::{self, ClientMessages};
use crate::command;
use crate::debounce;
use crate::documents;
use crate::requests::compare::{CompareAnswer, CompareParams};
use crate::requests::formatting::RangesParams;
use crate::requests::preview::{PreviewAnswer, PreviewParams};
use crate::requests::questions;
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
use tower_lsp::lsp_types::request::{self, Request};
use tower_lsp::lsp_types::{
    CodeActionParams, CodeLens, CodeLensParams, DidChangeConfigurationParams,
    DidChangeTextDocumentParams, DidChangeWatchedFilesParams, DidChangeWorkspaceFoldersParams,
    DidCloseTextDocumentParams, DidOpenTextDocumentParams, DidSaveTextDocumentParams,
    DocumentDiagnosticParams, DocumentDiagnosticReportResult, ExecuteCommandParams,
    InitializeParams, InitializeResult, InitializedParams, MessageType, SymbolInformation,
    TextEdit, WorkspaceDiagnosticParams, WorkspaceDiagnosticReportResult, WorkspaceSymbolParams,
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

    /// What can be done at a place, of an editor that takes snippets in edits.
    pub(crate) async fn actions_with_choices(
        &self,
        params: CodeActionParams,
    ) -> Result<Option<Vec<Value>>> {
        let question = move |asked: &RequestContext| requests::choices::actions(asked, &params);
        self.server.answer(question).await
    }

    /// Several ranges of a document in form.
    pub(crate) async fn ranges_formatting(
        &self,
        params: RangesParams,
    ) -> Result<Option<Vec<TextEdit>>> {
        let question = move |asked: &RequestContext| requests::formatting::ranges(asked, &params);
        self.server.answer(question).await
    }

    /// Looks through the folders, on the side.
    fn scan(&self) {
        self.server.state().scans += 1;
        self.spawn(folders::scan(self.server.clone(), self.outbox.clone()));
    }

    /// Where no folder is open, those of the open documents count, which have become others.
    fn scan_beside(&self) {
        if self.server.state().folders.is_empty() {
            self.scan();
        }
    }

    /// Asks the editor for its settings, on the side.
    fn fetch_settings(&self) {
        self.spawn(settings::fetch(self.client.clone(), self.server.clone()));
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

/// What the protocol's library calls: opening, changing and closing here, a question by its row.
macro_rules! language_server {
    ($($method:ident: $asked:ident => $answer:expr, $can:expr;)*) => {
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
        self.scan_beside();
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
        self.scan_beside();
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        // Held no longer than it is looked at: who takes settings over holds it too.
        let can_be_asked = self.server.state().editor.has_settings;
        match can_be_asked {
            true => self.fetch_settings(),
            false => settings::changed(&self.server, &params.settings),
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

    // Of the protocol's two forms of its answer the library takes the older one.
    async fn symbol(
        &self,
        params: WorkspaceSymbolParams,
    ) -> Result<Option<Vec<SymbolInformation>>> {
        self.server
            .answer(move |asked| requests::symbols::workspace(asked, &params))
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

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<Value>> {
        command::execute(&self.server, &self.outbox, params).await
    }

    $(async fn $method(
        &self,
        params: <request::$asked as Request>::Params,
    ) -> Result<<request::$asked as Request>::Result> {
        self.server
            .answer(move |asked| $answer(asked, &params))
            .await
    })*
}
    };
}
questions!(language_server);
