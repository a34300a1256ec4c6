//! Methods by which tests look inside; not there in a session for an editor.

use crate::server::Server;
use crate::server_state::path_of;
use serde::{Deserialize, Serialize};
use std::sync::atomic::Ordering;
use std::time::{Duration, Instant};
use tower_lsp::LspServiceBuilder;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::Url;

/// Adds the probes.
pub(crate) fn add(builder: LspServiceBuilder<Server>) -> LspServiceBuilder<Server> {
    builder
        .custom_method("quillet/probe/text", Server::probe_text)
        .custom_method("quillet/probe/slow", Server::probe_slow)
        .custom_method("quillet/probe/working", Server::probe_working)
}

#[derive(Deserialize, Serialize)]
struct DocumentParams {
    uri: Url,
}

#[derive(Deserialize, Serialize)]
struct SlowParams {
    ms: u64,
}

#[derive(Deserialize, Serialize)]
struct NoParams {}

impl Server {
    /// The server's copy of an open document.
    async fn probe_text(&self, params: DocumentParams) -> Result<String> {
        let text = self.server().state().workspace.text(&path_of(&params.uri));
        text.map(|text| text.to_string())
            .ok_or_else(|| Error::invalid_params("not open"))
    }

    /// A request that takes its time, unless called off.
    async fn probe_slow(&self, params: SlowParams) -> Result<String> {
        let question = move |asked: &crate::server_state::RequestContext| {
            let until = Instant::now() + Duration::from_millis(params.ms);
            while Instant::now() < until && !asked.cancel.is_off() {
                std::thread::sleep(Duration::from_millis(2));
            }
            Ok("slept".into())
        };
        self.server().answer(question).await
    }

    /// How many threads answer requests.
    async fn probe_working(&self, _: NoParams) -> Result<usize> {
        Ok(self.server().working.load(Ordering::SeqCst))
    }
}
