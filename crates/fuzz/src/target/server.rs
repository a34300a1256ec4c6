//! The server: whatever comes, it goes on until its input ends, and what it says is sound.
//!
//! Each line of an input is a message; one that begins with `!` is sent as it stands, without a
//! header.

use quillet_lsp::Session;
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt};

/// No session of so few messages takes longer, on any machine.
const PATIENCE: Duration = Duration::from_secs(60);

pub(super) fn run(bytes: &[u8]) {
    thread_local! {
        static RUNTIME: tokio::runtime::Runtime = runtime();
    }
    RUNTIME.with(|runtime| runtime.block_on(session(bytes)));
}

fn runtime() -> tokio::runtime::Runtime {
    let built = tokio::runtime::Builder::new_current_thread()
        .enable_time()
        .build();
    built.unwrap_or_else(|error| panic!("no runtime: {error}"))
}

async fn session(bytes: &[u8]) {
    let mut sent = Vec::new();
    for line in bytes.split(|byte| *byte == b'\n') {
        match line.strip_prefix(b"!") {
            Some(raw) => sent.extend_from_slice(raw),
            None => {
                sent.extend_from_slice(
                    format!("Content-Length: {}\r\n\r\n", line.len()).as_bytes(),
                );
                sent.extend_from_slice(line);
            }
        }
    }
    let (mut to, input) = tokio::io::duplex(1 << 16);
    let (output, mut from) = tokio::io::duplex(1 << 16);
    let served = tokio::time::timeout(PATIENCE, Session::new().serve(input, output));
    let render = async {
        // After an `exit` nobody reads on.
        let _ = to.write_all(&sent).await;
        drop(to);
    };
    let hear = async {
        let mut heard = Vec::new();
        let _ = from.read_to_end(&mut heard).await;
        heard
    };
    let (ended, (), heard) = tokio::join!(served, render, hear);
    assert!(ended.is_ok(), "the server goes on");
    sound(&heard);
}

/// Panics where something that was said is no message.
fn sound(mut heard: &[u8]) {
    while !heard.is_empty() {
        let end = heard.windows(4).position(|it| it == b"\r\n\r\n");
        let Some(end) = end else {
            panic!("no header ends in {:?}", String::from_utf8_lossy(heard))
        };
        let head = String::from_utf8_lossy(&heard[..end]);
        let length = head
            .strip_prefix("Content-Length: ")
            .and_then(|it| it.parse::<usize>().ok());
        let Some(length) = length else {
            panic!("{head:?} is no header")
        };
        let body = heard.get(end + 4..end + 4 + length);
        // The last may be cut off where the session ended.
        let Some(body) = body else { return };
        let message: Result<serde_json::Value, _> = serde_json::from_slice(body);
        assert!(
            message.is_ok_and(|it| it["jsonrpc"] == "2.0"),
            "{}",
            String::from_utf8_lossy(body)
        );
        heard = &heard[end + 4 + length..];
    }
}
