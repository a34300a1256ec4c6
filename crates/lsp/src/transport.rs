//! From a pair of streams to a served session and how it ended.

use crate::frames::Frames;
use crate::ordering::OrderingMiddleware;
use crate::output_writer::OutputWriter;
use crate::service::service;
use crate::session::Session;
use std::future::Future;
use std::pin::Pin;
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::sync::{Notify, oneshot};

/// Requests that may be under way at once, so that a cancel is always read.
const CONCURRENCY: usize = 4096;

/// How long answers under way may still be written after `exit`.
const GRACE: Duration = Duration::from_millis(300);

/// How long answers under way may take once the editor says nothing more.
const LAST_ANSWERS: Duration = Duration::from_secs(5);

/// How a session ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// The editor asked for `shutdown` first.
    Orderly,
    /// It did not.
    Abrupt,
}

impl Ended {
    /// The exit code the protocol asks for: 0 after `shutdown`, else 1.
    pub fn code(self) -> u8 {
        match self {
            Ended::Orderly => 0,
            Ended::Abrupt => 1,
        }
    }
}

impl Session {
    /// Serves one editor until it says `exit`, closes `input` or no longer reads `output`, or its
    /// process is gone.
    ///
    /// Must be called on a Tokio runtime with timers.
    pub async fn serve<I, O>(self, input: I, output: O) -> Ended
    where
        I: AsyncRead + Unpin,
        O: AsyncWrite,
    {
        let orphaned = Arc::new(Notify::new());
        let (service, socket) = service(self, orphaned.clone());
        let (gate, exited, shut) = OrderingMiddleware::new(service);
        let (stop, stopped) = oneshot::channel::<()>();
        let (closed, closing) = oneshot::channel::<()>();
        let (broken, breaking) = oneshot::channel::<()>();
        let input = UntilExit {
            inner: Frames::of(input),
            exited: Some(exited),
            stop: Some(stop),
            closed: Some(closed),
        };
        let output = OutputWriter::into(output, broken);
        let session = tower_lsp::Server::new(input, output, socket)
            .concurrency_level(CONCURRENCY)
            .serve(gate);
        tokio::select! {
            () = session => {}
            () = async {
                let _ = stopped.await;
                tokio::time::sleep(GRACE).await;
            } => {}
            () = async {
                let _ = closing.await;
                tokio::time::sleep(LAST_ANSWERS).await;
            } => {}
            _ = breaking => {}
            () = orphaned.notified() => {}
        }
        if shut.load(Ordering::SeqCst) {
            Ended::Orderly
        } else {
            Ended::Abrupt
        }
    }
}

/// Serves one editor on standard input and output.
///
/// # Errors
/// When the threads it runs on cannot be started.
pub fn serve_stdio() -> std::io::Result<Ended> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_time()
        .build()?;
    let ended = runtime.block_on(Session::new().serve(tokio::io::stdin(), tokio::io::stdout()));
    // A thread may sit in a read of standard input that never returns.
    runtime.shutdown_background();
    Ok(ended)
}

/// An input that ends when the editor has said `exit`, open or not.
struct UntilExit<I> {
    inner: I,
    exited: Option<oneshot::Receiver<()>>,
    /// Dropped on `exit`.
    stop: Option<oneshot::Sender<()>>,
    /// Dropped at the end of the input.
    closed: Option<oneshot::Sender<()>>,
}

impl<I: AsyncRead + Unpin> AsyncRead for UntilExit<I> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buffer: &mut ReadBuf<'_>,
    ) -> Poll<std::io::Result<()>> {
        match self.exited.as_mut().map(|exited| Pin::new(exited).poll(cx)) {
            Some(Poll::Pending) => {
                let before = buffer.filled().len();
                let read = Pin::new(&mut self.inner).poll_read(cx, buffer);
                if read.is_ready() && buffer.filled().len() == before {
                    drop(self.closed.take());
                }
                read
            }
            _ => {
                self.exited = None;
                drop(self.stop.take());
                Poll::Ready(Ok(()))
            }
        }
    }
}
