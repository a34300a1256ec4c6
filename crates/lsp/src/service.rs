//! The service that calls an editor's server.

use crate::newer;
use crate::probe;
use crate::server::Server;
use crate::session::Session;
use std::sync::Arc;
use tokio::sync::Notify;
use tower_lsp::{ClientSocket, LspService};

/// The service that calls a new server, and the socket to its editor.
/// `orphaned` is told when the editor's process is gone.
pub(crate) fn service(
    session: Session,
    orphaned: Arc<Notify>,
) -> (LspService<Server>, ClientSocket) {
    let builder = LspService::build(|client| Server::new(client, session, orphaned))
        .custom_method("quillet/preview", Server::preview)
        .custom_method("quillet/compare", Server::compare)
        .custom_method(newer::ACTIONS, Server::actions_with_choices)
        .custom_method("textDocument/rangesFormatting", Server::ranges_formatting);
    match session.probes {
        true => probe::add(builder).finish(),
        false => builder.finish(),
    }
}
