//! The order of the wire, kept: each message waits for its turn and passes it on.
//!
//! A writer passes the turn on when it is done, a request as soon as it has begun
//! (by then it holds its snapshot), so that no request sees a change that was sent
//! after it or misses one that was sent before.

use tokio::sync::oneshot;

/// Where messages queue, in the order in which they came.
pub(crate) struct OrderingQueue {
    last: Signal,
}

impl OrderingQueue {
    /// An empty line: the first to join has its turn at once.
    pub(crate) fn new() -> Self {
        Self {
            last: Signal(oneshot::channel().1),
        }
    }

    /// Joins at the end.
    pub(crate) fn join(&mut self) -> OrderingTicket {
        let (pass, next) = oneshot::channel();
        OrderingTicket {
            before: Some(std::mem::replace(&mut self.last, Signal(next))),
            pass: Some(pass),
        }
    }
}

/// A place in the line; dropping it passes the turn on.
pub(crate) struct OrderingTicket {
    before: Option<Signal>,
    pass: Option<oneshot::Sender<Signal>>,
}

impl OrderingTicket {
    /// Waits until all that stand before have passed their turn on.
    pub(crate) async fn come(&mut self) {
        while let Some(before) = &mut self.before {
            // An error means that the sender is gone: the turn was passed on. A value
            // means that whoever stood there left early; wait for the one before it.
            self.before = (&mut before.0).await.ok();
        }
    }
}

impl Drop for OrderingTicket {
    fn drop(&mut self) {
        if let (Some(before), Some(pass)) = (self.before.take(), self.pass.take()) {
            // Left before its turn came: the next one waits for whom this one waited for.
            let _ = pass.send(before);
        }
    }
}

/// Closed when the turn is passed on.
struct Signal(oneshot::Receiver<Signal>);

#[cfg(test)]
mod tests {
    use super::OrderingQueue;
    use std::time::Duration;

    /// Whether the future is still waiting after the others had time to run.
    async fn waits(turn: &mut super::OrderingTicket) -> bool {
        tokio::time::timeout(Duration::from_millis(5), turn.come())
            .await
            .is_err()
    }

    #[tokio::test]
    async fn the_first_goes_at_once_and_the_second_when_the_first_is_dropped() {
        let mut line = OrderingQueue::new();
        let (mut first, mut second) = (line.join(), line.join());
        assert!(!waits(&mut first).await);
        assert!(waits(&mut second).await);
        drop(first);
        assert!(!waits(&mut second).await);
    }

    #[tokio::test]
    async fn one_that_leaves_early_does_not_let_the_next_overtake() {
        let mut line = OrderingQueue::new();
        let (first, second, mut third) = (line.join(), line.join(), line.join());
        drop(second);
        assert!(waits(&mut third).await);
        drop(first);
        assert!(!waits(&mut third).await);
    }
}
