//! What the protocol library calls.

use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{InitializeParams, InitializeResult, ServerInfo};
use tower_lsp::{ClientSocket, LanguageServer, LspService};

/// One editor's server.
pub(crate) struct Server;

impl Server {
    /// The service that calls a new server, and the socket to its editor.
    pub(crate) fn service() -> (LspService<Server>, ClientSocket) {
        LspService::build(|_client| Server).finish()
    }
}

#[tower_lsp::async_trait]
impl LanguageServer for Server {
    async fn initialize(&self, _params: InitializeParams) -> Result<InitializeResult> {
        Ok(InitializeResult {
            server_info: Some(ServerInfo {
                name: "quillet".into(),
                version: Some(env!("CARGO_PKG_VERSION").into()),
            }),
            ..InitializeResult::default()
        })
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }
}
