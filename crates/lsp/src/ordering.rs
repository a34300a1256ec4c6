//! What stands before the protocol library and mends what it leaves open.
//!
//! * Its handlers run concurrently and forget the order of the wire after their first
//!   await: here every message waits for its turn (see [`OrderingQueue`]).
//! * It does not end on `exit` while standard input is open: here `exit` closes the input.
//! * It says nothing to requests `$/…` that it does not know, and cannot answer what is no sound
//!   message (see [`crate::frames`]).
//! * It refuses `params: null` where it expects none, which some editors send: dropped.

use crate::frames;
use crate::newer::{Newer, as_typed, with_snippets};
use crate::ordering_queue::{OrderingQueue, OrderingTicket};
use std::future::{Future, poll_fn};
use std::pin::Pin;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::task::{Context, Poll};
use tokio::sync::oneshot;
use tower::Service;
use tower_lsp::jsonrpc::{Error, Request, Response};

type ServiceResult<E> = Result<Option<Response>, E>;
type Pending<E> = Pin<Box<dyn Future<Output = ServiceResult<E>> + Send>>;

/// The gate before a service.
pub(crate) struct OrderingMiddleware<S> {
    inner: Arc<Mutex<S>>,
    line: OrderingQueue,
    /// `initialize` has been answered.
    open: Arc<AtomicBool>,
    /// The editor takes snippets in edits.
    snippets: AtomicBool,
    /// `shutdown` has been seen.
    shut: Arc<AtomicBool>,
    /// Fired by `exit`.
    exit: Option<oneshot::Sender<()>>,
}

impl<S> OrderingMiddleware<S> {
    /// A gate before `inner`, with what fires on `exit` and what tells whether `shutdown` came.
    pub(crate) fn new(inner: S) -> (Self, oneshot::Receiver<()>, Arc<AtomicBool>) {
        let (exit, exited) = oneshot::channel();
        let shut = Arc::new(AtomicBool::new(false));
        let gate = Self {
            inner: Arc::new(Mutex::new(inner)),
            line: OrderingQueue::new(),
            open: Arc::new(AtomicBool::new(false)),
            snippets: AtomicBool::new(false),
            shut: shut.clone(),
            exit: Some(exit),
        };
        (gate, exited, shut)
    }
}

impl<S> Service<Request> for OrderingMiddleware<S>
where
    S: Service<Request, Response = Option<Response>> + Send + 'static,
    S::Future: Send + 'static,
    S::Error: Send + 'static,
{
    type Response = Option<Response>;
    type Error = S::Error;
    type Future = Pending<S::Error>;

    fn poll_ready(&mut self, _: &mut Context<'_>) -> Poll<Result<(), S::Error>> {
        // The inner service is ready until it is told to exit, which it never is.
        Poll::Ready(Ok(()))
    }

    fn call(&mut self, request: Request) -> Self::Future {
        if self.exit.is_none() {
            return Box::pin(async { Ok(None) });
        }
        if let Some(answer) = frames::answer(&request).or_else(|| unknown(&request)) {
            return Box::pin(async { Ok(Some(answer)) });
        }
        let newer = Newer::of(&request);
        let mut request = as_typed(without_needless_params(request));
        if self.snippets.load(Ordering::SeqCst) {
            request = with_snippets(request);
        }
        match Kind::of(request.method()) {
            Kind::Exit => {
                // Not handed over: the inner service would drop the answers still under way.
                drop(self.exit.take());
                Box::pin(async { Ok(None) })
            }
            Kind::Free => self.pass(request),
            Kind::Writer => {
                let opens = request.method() == "initialize";
                if request.method() == "shutdown" {
                    self.shut.store(true, Ordering::SeqCst);
                }
                if opens {
                    self.snippets.store(newer.snippet_edits, Ordering::SeqCst);
                }
                let (turn, begin) = (self.line.join(), self.begin(request));
                let open = self.open.clone();
                Box::pin(async move {
                    let mut turn = turn;
                    turn.come().await;
                    let answer = begin().await;
                    if opens {
                        open.store(true, Ordering::SeqCst);
                    }
                    drop(turn);
                    answer.map(|it| match opens {
                        true => it.map(|it| newer.announced(it)),
                        false => it,
                    })
                })
            }
            Kind::Request => {
                let (turn, begin) = (self.line.join(), self.begin(request));
                Box::pin(ask(turn, begin))
            }
        }
    }
}

impl<S> OrderingMiddleware<S>
where
    S: Service<Request, Response = Option<Response>> + Send + 'static,
    S::Future: Send + 'static,
    S::Error: Send + 'static,
{
    /// Hands over at once.
    fn pass(&self, request: Request) -> Pending<S::Error> {
        Box::pin(lock(&self.inner).call(request))
    }

    /// What starts the request when its turn has come.
    ///
    /// It is handed over now, so that a cancel finds it, unless `initialize` is still
    /// unanswered: then the inner service would refuse it.
    fn begin(&self, request: Request) -> impl FnOnce() -> Pending<S::Error> + Send + use<S> {
        let begun = if self.open.load(Ordering::SeqCst) {
            Ok(self.pass(request))
        } else {
            Err((self.inner.clone(), request))
        };
        move || match begun {
            Ok(pending) => pending,
            Err((inner, request)) => Box::pin(lock(&inner).call(request)),
        }
    }
}

/// Polls the request once when its turn has come, passes the turn on, then waits for the answer.
async fn ask<E>(mut turn: OrderingTicket, begin: impl FnOnce() -> Pending<E>) -> ServiceResult<E> {
    turn.come().await;
    let mut pending = begin();
    let first = poll_fn(|cx| Poll::Ready(pending.as_mut().poll(cx))).await;
    drop(turn);
    match first {
        Poll::Ready(answer) => answer,
        Poll::Pending => pending.await,
    }
}

/// How a message takes part in the order of the wire.
enum Kind {
    /// Changes what later messages see; they wait until it is done.
    Writer,
    /// Sees what the writers before it wrote.
    Request,
    /// Passes by: cancels, progress, traces.
    Free,
    /// Ends the server.
    Exit,
}

impl Kind {
    fn of(method: &str) -> Kind {
        match method {
            "exit" => Kind::Exit,
            "initialize" | "initialized" | "shutdown" => Kind::Writer,
            _ if method.starts_with("$/") => Kind::Free,
            _ if method.starts_with("textDocument/did") => Kind::Writer,
            _ if method.starts_with("workspace/did") => Kind::Writer,
            _ => Kind::Request,
        }
    }
}

/// The answer to a request, not a notification, of the protocol's own kind: there is none here.
fn unknown(request: &Request) -> Option<Response> {
    let id = request
        .id()
        .filter(|_| request.method().starts_with("$/"))?;
    let mut error = Error::method_not_found();
    error.data = Some(request.method().into());
    Some(Response::from_error(id.clone(), error))
}

/// Takes out `params: null`, and any of `shutdown`, which has none.
fn without_needless_params(request: Request) -> Request {
    let needless = |params: &serde_json::Value| params.is_null() || request.method() == "shutdown";
    if !request.params().is_some_and(needless) {
        return request;
    }
    let (method, id, _) = request.into_parts();
    let bare = Request::build(method);
    match id {
        Some(id) => bare.id(id).finish(),
        None => bare.finish(),
    }
}

fn lock<S>(inner: &Mutex<S>) -> std::sync::MutexGuard<'_, S> {
    inner.lock().unwrap_or_else(PoisonError::into_inner)
}
