//! What is told to the editor unasked, in the order in which it became true.

use crate::desk::State;
use std::path::Path;
use std::time::Duration;
use tokio::sync::mpsc;
use tower_lsp::Client;
use tower_lsp::lsp_types::request::WorkspaceDiagnosticRefresh;
use tower_lsp::lsp_types::{Diagnostic, MessageType, Url};

/// How long an answer from the editor is waited for.
const PATIENCE: Duration = Duration::from_secs(10);

/// Where messages are put while the state is locked.
#[derive(Clone)]
pub(crate) struct Outbox(mpsc::UnboundedSender<Message>);

/// One message.
#[derive(Debug)]
pub(crate) enum Message {
    /// All diagnostics of a file.
    Diagnostics {
        url: Url,
        version: Option<i32>,
        diagnostics: Vec<Diagnostic>,
    },
    /// A line for the editor's log.
    Log(MessageType, String),
    /// Something is to be asked for again.
    Refresh(Refresh),
}

/// What is to be asked for again.
#[derive(Debug)]
pub(crate) enum Refresh {
    /// Diagnostics.
    Diagnostics,
}

impl Outbox {
    /// A box and the end from which [`deliver`] takes.
    pub(crate) fn new() -> (Self, mpsc::UnboundedReceiver<Message>) {
        let (sender, receiver) = mpsc::unbounded_channel();
        (Self(sender), receiver)
    }

    /// Publishes what is found in a file where it changed, or also where it did not if it is the
    /// file that was `checked`; an editor that asks by itself is told nothing.
    pub(crate) fn publish(&self, state: &mut State, file: &Path, checked: bool) {
        let text = state.workspace.text(file);
        let diagnostics = state.shown.gather(file, text.as_ref());
        let differs = state.shown.publish(file, &diagnostics);
        state.elsewhere |= differs && !checked;
        if state.editor.pulls {
            return;
        }
        let version = state.open.get(file).map(|open| open.version);
        let wanted = differs || (checked && version.is_some());
        if let (true, Some(url)) = (wanted, state.url(file)) {
            self.send(Message::Diagnostics {
                url,
                version,
                diagnostics,
            });
        }
    }

    /// Asks the editor to ask again for what changed elsewhere, where it can.
    pub(crate) fn refresh(&self, state: &State) {
        if state.editor.refreshes_diagnostics {
            self.send(Message::Refresh(Refresh::Diagnostics));
        }
    }

    /// Puts a line into the editor's log.
    pub(crate) fn log(&self, kind: MessageType, line: String) {
        self.send(Message::Log(kind, line));
    }

    fn send(&self, message: Message) {
        // Only a session that has ended has no receiver.
        let _ = self.0.send(message);
    }
}

/// Delivers one message after the other until the box is gone.
pub(crate) async fn deliver(client: Client, mut messages: mpsc::UnboundedReceiver<Message>) {
    while let Some(message) = messages.recv().await {
        match message {
            Message::Diagnostics {
                url,
                version,
                diagnostics,
            } => {
                client.publish_diagnostics(url, diagnostics, version).await;
            }
            Message::Refresh(what) => drop(tokio::spawn(refresh(client.clone(), what))),
            Message::Log(kind, line) => client.log_message(kind, line).await,
        }
    }
}

/// No handler waits for this, and it waits for nobody long.
async fn refresh(client: Client, what: Refresh) {
    let asked = async {
        match what {
            Refresh::Diagnostics => client.send_request::<WorkspaceDiagnosticRefresh>(()).await,
        }
    };
    // An editor that does not answer has at least been told.
    let _ = tokio::time::timeout(PATIENCE, asked).await;
}
