//! An output that never fails: where nobody reads, the session ends; the protocol library would
//! panic over it.

use std::io;
use std::pin::Pin;
use std::task::{Context, Poll};
use tokio::io::AsyncWrite;
use tokio::sync::oneshot;

/// See the module.
pub(crate) struct OutputWriter<O> {
    inner: Pin<Box<O>>,
    /// Dropped when the output breaks.
    broken: Option<oneshot::Sender<()>>,
}

impl<O: AsyncWrite> OutputWriter<O> {
    /// An outlet into `inner`; what is dropped says that it is broken.
    pub(crate) fn into(inner: O, broken: oneshot::Sender<()>) -> Self {
        Self {
            inner: Box::pin(inner),
            broken: Some(broken),
        }
    }

    /// Makes nothing of an error but the end of the session.
    fn mend<T>(&mut self, result: Poll<io::Result<T>>, instead: T) -> Poll<io::Result<T>> {
        match result {
            Poll::Ready(Err(_)) => {
                drop(self.broken.take());
                Poll::Ready(Ok(instead))
            }
            fine => fine,
        }
    }
}

impl<O: AsyncWrite> AsyncWrite for OutputWriter<O> {
    fn poll_write(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        let written = match self.inner.as_mut().poll_write(cx, bytes) {
            Poll::Ready(Ok(0)) if !bytes.is_empty() => {
                Poll::Ready(Err(io::ErrorKind::WriteZero.into()))
            }
            written => written,
        };
        self.mend(written, bytes.len())
    }

    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        let flushed = self.inner.as_mut().poll_flush(cx);
        self.mend(flushed, ())
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        let shut = self.inner.as_mut().poll_shutdown(cx);
        self.mend(shut, ())
    }
}
