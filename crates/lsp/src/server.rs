//! What the protocol library calls, one line a message.

use crate::desk::Desk;
use crate::documents;
use crate::outbox::{self, Outbox};
use crate::session::Session;
use crate::{capabilities, lane, probe, pull};
use std::sync::Arc;
use tokio::task::JoinSet;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    DidChangeTextDocumentParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
    DocumentDiagnosticParams, DocumentDiagnosticReportResult, InitializeParams, InitializeResult,
    InitializedParams, MessageType, WorkspaceDiagnosticParams, WorkspaceDiagnosticReportResult,
};
use tower_lsp::{Client, ClientSocket, LanguageServer, LspService};

/// One editor's server.
pub(crate) struct Server {
    desk: Arc<Desk>,
    outbox: Outbox,
    /// The lanes and the messenger; they end with the session.
    _tasks: JoinSet<()>,
}

impl Server {
    /// The service that calls a new server, and the socket to its editor.
    pub(crate) fn service(session: Session) -> (LspService<Server>, ClientSocket) {
        let builder = LspService::build(|client| Server::new(client, session));
        match session.probes {
            true => probe::add(builder).finish(),
            false => builder.finish(),
        }
    }

    fn new(client: Client, session: Session) -> Self {
        let (outbox, messages) = Outbox::new();
        let desk = Arc::new(Desk::new(session));
        let mut tasks = JoinSet::new();
        tasks.spawn(outbox::deliver(client, messages));
        // One lane more than needed keeps the edited file from waiting for a long check.
        let lanes = std::thread::available_parallelism().map_or(2, |count| count.get().max(2));
        for _ in 0..lanes {
            tasks.spawn(lane::run(desk.clone(), outbox.clone()));
        }
        Self {
            desk,
            outbox,
            _tasks: tasks,
        }
    }

    /// What the session knows.
    pub(crate) fn desk(&self) -> &Arc<Desk> {
        &self.desk
    }
}

#[tower_lsp::async_trait]
impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        Ok(capabilities::agree(&self.desk, &params))
    }

    async fn initialized(&self, _: InitializedParams) {}

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        documents::opened(&self.desk, params);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        if let Err(what) = documents::changed(&self.desk, params) {
            self.outbox.log(MessageType::ERROR, what);
        }
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        documents::closed(&self.desk, &self.outbox, &params);
    }

    async fn diagnostic(
        &self,
        params: DocumentDiagnosticParams,
    ) -> Result<DocumentDiagnosticReportResult> {
        let report = pull::document(&self.desk, params).await;
        Ok(DocumentDiagnosticReportResult::Report(report))
    }

    async fn workspace_diagnostic(
        &self,
        params: WorkspaceDiagnosticParams,
    ) -> Result<WorkspaceDiagnosticReportResult> {
        let report = pull::workspace(&self.desk, params).await;
        Ok(WorkspaceDiagnosticReportResult::Report(report))
    }
}
