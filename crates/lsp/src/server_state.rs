//! What one session knows: the open documents, and what is to be worked out about them.

use crate::cancel::CancellationToken;
use crate::client_support::ClientSupport;
use crate::diagnostic_store::DiagnosticStore;
use crate::pasts::Pasts;
use crate::queue::Queue;
use crate::refresh::Refresh;
use crate::session::Session;
use crate::typing::{SyntaxDelay, Typing};
use quillet_ide::{Snapshot, Workspace};
use quillet_syntax::Encoding;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::Notify;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::Url;

/// Shared by the handlers and the lanes that work.
pub(crate) struct ServerState {
    /// How the session was set up.
    pub(crate) session: Session,
    /// Told when there is work.
    pub(crate) work: Notify,
    /// Told when a check has ended.
    pub(crate) checked: Notify,
    /// Told when something is to be done later: a line is typed on, or the editor was asked just now.
    pub(crate) due: Notify,
    /// Requests that a thread is working on.
    pub(crate) working: Arc<AtomicUsize>,
    state: Mutex<SessionState>,
}

/// What changes, under a lock that is only ever held for a moment.
#[derive(Default)]
pub(crate) struct SessionState {
    /// The texts.
    pub(crate) workspace: Workspace,
    /// The documents the editor has open.
    pub(crate) open: BTreeMap<PathBuf, OpenDocument>,
    /// What waits to be checked.
    pub(crate) queue: Queue,
    /// What was last published.
    pub(crate) shown: DiagnosticStore,
    /// What columns count.
    pub(crate) encoding: Encoding,
    /// What the editor can do.
    pub(crate) editor: ClientSupport,
    /// The folders the editor has open.
    pub(crate) folders: Vec<PathBuf>,
    /// Looks through the folders that are under way.
    pub(crate) scans: usize,
    /// Documents of which a preview was asked for.
    pub(crate) previewed: BTreeSet<PathBuf>,
    /// Progress that is shown, until all is checked.
    pub(crate) progress: Option<Progress>,
    /// Whether what is shown of files other than the edited one may have changed.
    pub(crate) refresh: Refresh,
    /// The document that was opened or edited last.
    pub(crate) edited: Option<PathBuf>,
    /// How long syntax findings on the line that is typed on are held back.
    pub(crate) syntax_delay: SyntaxDelay,
    /// The revisions that documents are compared with.
    pub(crate) pasts: Arc<Pasts>,
}

/// Progress that is shown.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Progress {
    /// Files to check when it began.
    pub(crate) total: usize,
    /// Per cent told last.
    pub(crate) reported: u32,
}

/// A document the editor has open.
#[derive(Clone, Debug)]
pub(crate) struct OpenDocument {
    /// Its address as the editor spells it.
    pub(crate) url: Url,
    /// The editor's version number.
    pub(crate) version: i32,
    /// The line that is being typed on.
    pub(crate) typing: Option<Typing>,
}

impl ServerState {
    /// A desk with nothing on it.
    pub(crate) fn new(session: Session) -> Self {
        Self {
            session,
            work: Notify::new(),
            checked: Notify::new(),
            due: Notify::new(),
            working: Arc::default(),
            state: Mutex::default(),
        }
    }

    /// Wakes the lanes that check and that ask the editor: something may wait, or no longer wait.
    pub(crate) fn wake(&self) {
        self.work.notify_one();
        self.due.notify_one();
    }

    /// The state; never held across an await.
    pub(crate) fn state(&self) -> MutexGuard<'_, SessionState> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Answers a request on a thread of its own, from the texts as they are now.
    ///
    /// # Errors
    /// An internal error where the answer panicked; it is told, never fatal.
    pub(crate) async fn answer<T, F>(&self, question: F) -> Result<T>
    where
        T: Send + 'static,
        F: FnOnce(&RequestContext) -> Result<T> + Send + 'static,
    {
        let asked = self.state().asked(CancellationToken::default());
        let _call_off = asked.cancel.on_drop();
        let working = WorkingGuard::new(&self.working);
        let job = tokio::task::spawn_blocking(move || {
            let _working = working;
            question(&asked)
        });
        job.await.map_err(|_| Error::internal_error())?
    }
}

/// What a question is answered from.
pub(crate) struct RequestContext {
    /// The texts.
    pub(crate) snapshot: Snapshot,
    /// What columns count.
    pub(crate) encoding: Encoding,
    /// What the editor can do.
    pub(crate) editor: ClientSupport,
    /// Set where the editor no longer waits.
    pub(crate) cancel: CancellationToken,
    /// The revisions that documents are compared with.
    pub(crate) pasts: Arc<Pasts>,
    open: BTreeMap<PathBuf, OpenDocument>,
}

impl RequestContext {
    /// The address of a file as the editor spells it.
    pub(crate) fn url(&self, path: &Path) -> Option<Url> {
        address(&self.open, path)
    }

    /// The version of an open document's text; none of a file that is not open.
    pub(crate) fn version(&self, path: &Path) -> Option<i32> {
        self.open.get(path).map(|open| open.version)
    }
}

impl SessionState {
    /// Whether all that is known of has been checked.
    pub(crate) fn is_settled(&self) -> bool {
        self.scans == 0 && self.queue.is_idle()
    }

    /// What a question asked now is answered from.
    pub(crate) fn asked(&self, cancel: CancellationToken) -> RequestContext {
        RequestContext {
            snapshot: self.workspace.snapshot(),
            encoding: self.encoding,
            editor: self.editor,
            cancel,
            pasts: self.pasts.clone(),
            open: self.open.clone(),
        }
    }

    /// The address of a file as the editor spells it.
    pub(crate) fn url(&self, path: &Path) -> Option<Url> {
        address(&self.open, path)
    }
}

/// The path by which a document is known: its own, or its whole address where it is no file.
pub(crate) fn path_of(url: &Url) -> PathBuf {
    match url.to_file_path() {
        Ok(path) if url.scheme() == "file" => path,
        _ => PathBuf::from(url.as_str()),
    }
}

fn address(open: &BTreeMap<PathBuf, OpenDocument>, path: &Path) -> Option<Url> {
    match open.get(path) {
        Some(document) => Some(document.url.clone()),
        None => Url::from_file_path(path).ok(),
    }
}

/// Counts a thread as working until dropped.
struct WorkingGuard(Arc<AtomicUsize>);

impl WorkingGuard {
    fn new(count: &Arc<AtomicUsize>) -> Self {
        count.fetch_add(1, Ordering::SeqCst);
        Self(count.clone())
    }
}

impl Drop for WorkingGuard {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::SeqCst);
    }
}
