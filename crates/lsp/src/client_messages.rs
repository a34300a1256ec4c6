//! What is told to the editor unasked, in the order in which it became true.

use crate::requests::preview::{PreviewChanged, PreviewChangedParams};
use crate::server_state::{Progress, SessionState};
use std::path::Path;
use std::time::Duration;
use tokio::sync::{mpsc, oneshot};
use tokio::task::JoinSet;
use tower_lsp::Client;
use tower_lsp::lsp_types::{
    Diagnostic, MessageType, ProgressParams, ProgressParamsValue, ProgressToken, Registration,
    ShowDocumentParams, Url, WorkDoneProgress, WorkDoneProgressBegin, WorkDoneProgressCreateParams,
    WorkDoneProgressEnd, WorkDoneProgressReport, notification, request,
};

/// How long the messages that follow wait for the editor to make ready for them.
const PATIENCE: Duration = Duration::from_secs(10);

/// The name of the only progress there is.
const PROGRESS: &str = "quillet/checking";

/// So many files take long enough to be told of.
const WORTH_SHOWING: usize = 20;

/// Where messages are put while the state is locked.
#[derive(Clone)]
pub(crate) struct ClientMessages(mpsc::UnboundedSender<Message>);

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
    /// How far something is.
    Progress(ProgressParams),
    /// A preview would come out otherwise.
    PreviewChanged(PreviewChangedParams),
    /// Something to which the editor answers.
    Request(Request),
}

/// Something to which the editor answers.
#[derive(Debug)]
pub(crate) enum Request {
    /// Ask again for diagnostics.
    RefreshDiagnostics,
    /// Ask again for inlay hints.
    RefreshHints,
    /// Ask again for code lenses.
    RefreshLenses,
    /// Ask again for the colours of words.
    RefreshTokens,
    /// Tell of files that change on the disk.
    WatchFiles,
    /// Make ready to show progress.
    CreateProgress,
    /// Show a document, in the editor or in what else shows such.
    Show { url: Url, external: bool },
}

impl ClientMessages {
    /// A box and the end from which [`deliver`] takes.
    pub(crate) fn new() -> (Self, mpsc::UnboundedReceiver<Message>) {
        let (sender, receiver) = mpsc::unbounded_channel();
        (Self(sender), receiver)
    }

    /// Publishes what is found in a file where it changed, or also where it did not if it is the
    /// file that was `checked`; an editor that asks by itself is told nothing.
    pub(crate) fn publish(&self, state: &mut SessionState, file: &Path, checked: bool) {
        let differs = self.push(state, file, checked);
        state.refresh.want(differs && !checked);
    }

    /// Publishes what was held back while its line was typed on.
    pub(crate) fn push_held(&self, state: &mut SessionState, file: &Path) {
        self.push(state, file, false);
    }

    /// Whether what is found in a file changed.
    fn push(&self, state: &mut SessionState, file: &Path, checked: bool) -> bool {
        let text = state.workspace.text(file);
        let mut diagnostics = state.shown.gather(file, text.as_ref());
        let open = state.open.get(file);
        let version = open.map(|open| open.version);
        let typing = open.and_then(|open| open.typing);
        if let Some(typing) = typing.filter(|_| !state.editor.pulls) {
            typing.hold_back(&mut diagnostics, state.shown.published(file));
        }
        let differs = state.shown.publish(file, &diagnostics);
        let wanted = differs || (checked && version.is_some());
        let wanted = wanted && !state.editor.pulls;
        if let (true, Some(url)) = (wanted, state.url(file)) {
            self.send(Message::Diagnostics {
                url,
                version,
                diagnostics,
            });
        }
        differs
    }

    /// Asks the editor to ask again for what changed elsewhere, where it can.
    pub(crate) fn refresh(&self, state: &SessionState) {
        let editor = state.editor;
        let wanted = [
            (
                editor.pulls && editor.refreshes_diagnostics,
                Request::RefreshDiagnostics,
            ),
            (editor.refreshes_hints, Request::RefreshHints),
            (editor.refreshes_lenses, Request::RefreshLenses),
            (editor.refreshes_tokens, Request::RefreshTokens),
        ];
        for (wanted, request) in wanted {
            if wanted {
                self.send(Message::Request(request));
            }
        }
    }

    /// Asks the editor to do something, where it can.
    pub(crate) fn ask(&self, state: &SessionState, request: Request) {
        let can = match &request {
            Request::Show { .. } => state.editor.shows_documents,
            _ => true,
        };
        if can {
            self.send(Message::Request(request));
        }
    }

    /// Says that what a preview shows has changed.
    pub(crate) fn preview_changed(&self, uri: Url, version: Option<i32>) {
        self.send(Message::PreviewChanged(PreviewChangedParams {
            uri,
            version,
        }));
    }

    /// Asks the editor to tell of files that change on the disk, where it can.
    pub(crate) fn watch_files(&self, state: &SessionState) {
        if state.editor.watches_files {
            self.send(Message::Request(Request::WatchFiles));
        }
    }

    /// Shows that so many files are being checked, where they are many.
    pub(crate) fn begin_progress(&self, state: &mut SessionState, total: usize) {
        if state.editor.shows_progress && state.progress.is_none() && total >= WORTH_SHOWING {
            state.progress = Some(Progress { total, reported: 0 });
            self.send(Message::Request(Request::CreateProgress));
            self.progress(WorkDoneProgress::Begin(WorkDoneProgressBegin {
                title: "Checking pens".into(),
                percentage: Some(0),
                ..WorkDoneProgressBegin::default()
            }));
        }
    }

    /// Tells how far the checking is, a few times, and ends with the last file.
    pub(crate) fn report_progress(&self, state: &mut SessionState) {
        let Some(progress) = &mut state.progress else {
            return;
        };
        let left = state.queue.count();
        if left == 0 {
            state.progress = None;
            self.progress(WorkDoneProgress::End(WorkDoneProgressEnd::default()));
            return;
        }
        let done = 100 * progress.total.saturating_sub(left) / progress.total;
        let done = u32::try_from(done).unwrap_or(0);
        if done >= progress.reported + 10 {
            progress.reported = done;
            self.progress(WorkDoneProgress::Report(WorkDoneProgressReport {
                percentage: Some(done),
                ..WorkDoneProgressReport::default()
            }));
        }
    }

    fn progress(&self, value: WorkDoneProgress) {
        let token = ProgressToken::String(PROGRESS.into());
        let value = ProgressParamsValue::WorkDone(value);
        self.send(Message::Progress(ProgressParams { token, value }));
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
    // What waits for an answer ends with the session, and not before: the protocol library has no place
    // for an answer nobody waits for, and ends over it.
    let mut asking = JoinSet::new();
    while let Some(message) = messages.recv().await {
        while asking.try_join_next().is_some() {}
        match message {
            Message::Diagnostics {
                url,
                version,
                diagnostics,
            } => {
                client.publish_diagnostics(url, diagnostics, version).await;
            }
            Message::Progress(params) => {
                client
                    .send_notification::<notification::Progress>(params)
                    .await
            }
            Message::PreviewChanged(params) => {
                client.send_notification::<PreviewChanged>(params).await;
            }
            Message::Request(Request::CreateProgress) => {
                // Progress may only be told once the editor has made ready.
                let (ready, made) = oneshot::channel();
                let client = client.clone();
                asking.spawn(async move {
                    ask(&client, Request::CreateProgress).await;
                    let _ = ready.send(());
                });
                let _ = tokio::time::timeout(PATIENCE, made).await;
            }
            Message::Request(request) => {
                let client = client.clone();
                asking.spawn(async move { ask(&client, request).await });
            }
            Message::Log(kind, line) => client.log_message(kind, line).await,
        }
    }
}

/// No handler waits for this.
async fn ask(client: &Client, request: Request) {
    // An editor that refuses has at least been told.
    let _ = match request {
        Request::RefreshDiagnostics => {
            client
                .send_request::<request::WorkspaceDiagnosticRefresh>(())
                .await
        }
        Request::RefreshHints => client.inlay_hint_refresh().await,
        Request::RefreshLenses => client.code_lens_refresh().await,
        Request::RefreshTokens => client.semantic_tokens_refresh().await,
        Request::WatchFiles => client.register_capability(vec![watch()]).await,
        Request::Show { url, external } => {
            let params = ShowDocumentParams {
                uri: url,
                external: Some(external),
                take_focus: None,
                selection: None,
            };
            client.show_document(params).await.map(drop)
        }
        Request::CreateProgress => {
            let token = ProgressToken::String(PROGRESS.into());
            let params = WorkDoneProgressCreateParams { token };
            client
                .send_request::<request::WorkDoneProgressCreate>(params)
                .await
        }
    };
}

fn watch() -> Registration {
    Registration {
        id: "quillet/files".into(),
        method: "workspace/didChangeWatchedFiles".into(),
        register_options: Some(serde_json::json!({"watchers": [{"globPattern": "**/*.quillet"}]})),
    }
}
