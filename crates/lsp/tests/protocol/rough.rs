//! Rough handling: messages that are not sound, an editor that is gone.

use crate::editor::Editor;
use quillet_lsp::{Ended, Session};
use serde_json::{Value, json};
use std::time::Duration;
use tokio::io::AsyncWriteExt;

/// Codes of JSON-RPC 2.0, section 5.1.
const PARSE_ERROR: i64 = -32700;
const INVALID_REQUEST: i64 = -32600;
const METHOD_NOT_FOUND: i64 = -32601;
const INVALID_PARAMS: i64 = -32602;

fn frame(body: &[u8]) -> Vec<u8> {
    let mut frame = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
    frame.extend_from_slice(body);
    frame
}

/// Whether it still answers.
async fn lives(editor: &mut Editor) {
    editor.open("untitled:one", "let a = 1\n").await;
    assert_eq!(editor.text("untitled:one").await, "let a = 1\n");
}

#[tokio::test]
#[expect(clippy::too_many_lines, reason = "one list of bodies and answers")]
async fn a_body_that_is_not_sound_is_answered_and_the_session_goes_on() {
    let mut editor = Editor::start().await;
    let deep = format!("{}{}", "[".repeat(5_000), "]".repeat(5_000));
    let deep = format!(r#"{{"jsonrpc":"2.0","id":1,"method":"a","params":{deep}}}"#);
    let cases: [(&[u8], Value, i64); 21] = [
        (b"", Value::Null, PARSE_ERROR),
        (b"nonsense", Value::Null, PARSE_ERROR),
        (b"{\"jsonrpc\":\"2.0\",", Value::Null, PARSE_ERROR),
        (
            b"{\"jsonrpc\":\"2.0\",\"id\":5,\"method\":\"\xff\"}",
            Value::Null,
            PARSE_ERROR,
        ),
        (b"\xef\xbb\xbf{}", Value::Null, PARSE_ERROR),
        (deep.as_bytes(), Value::Null, PARSE_ERROR),
        (b"null", Value::Null, INVALID_REQUEST),
        (b"[]", Value::Null, INVALID_REQUEST),
        (b"[1]", Value::Null, INVALID_REQUEST),
        (b"7", Value::Null, INVALID_REQUEST),
        (b"\"a\"", Value::Null, INVALID_REQUEST),
        (b"{}", Value::Null, INVALID_REQUEST),
        (
            br#"{"id":8,"method":"shutdown"}"#,
            json!(8),
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":"1.0","id":8,"method":"shutdown"}"#,
            json!(8),
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":2.0,"id":8,"method":"shutdown"}"#,
            json!(8),
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":"2.0","id":1.5,"method":"shutdown"}"#,
            Value::Null,
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":"2.0","id":[1],"method":"shutdown"}"#,
            Value::Null,
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":"2.0","id":99999999999999999999,"method":"shutdown"}"#,
            Value::Null,
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":"2.0","id":"x"}"#,
            json!("x"),
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":"2.0","id":"y","method":7}"#,
            json!("y"),
            INVALID_REQUEST,
        ),
        (
            br#"{"jsonrpc":"2.0","id":"z","method":"shutdown","params":7}"#,
            json!("z"),
            INVALID_REQUEST,
        ),
    ];
    for (body, id, code) in cases {
        editor.send(&frame(body)).await;
        let error = editor.error(id).await;
        let body = String::from_utf8_lossy(body);
        assert_eq!(error["code"], code, "{body:.80}: {error}");
        assert!(!error["message"].as_str().unwrap().is_empty());
    }
    lives(&mut editor).await;
}

#[tokio::test]
async fn answers_that_are_not_sound_are_passed_over() {
    let mut editor = Editor::start().await;
    editor.everything().await;
    for body in [
        r#"{"jsonrpc":"2.0","id":null,"error":{"code":-32700,"message":"?"}}"#,
        r#"{"jsonrpc":"2.0","id":3,"error":7}"#,
        r#"{"jsonrpc":"2.0","id":1.5,"result":7}"#,
        r#"{"jsonrpc":"2.0","result":7}"#,
        r#"{"jsonrpc":"2.0","id":987654,"result":7}"#,
    ] {
        editor.send(&frame(body.as_bytes())).await;
    }
    let heard = editor.everything().await;
    assert!(
        heard.iter().all(|it| it.get("error").is_none()),
        "{heard:?}"
    );
    lives(&mut editor).await;
}

#[tokio::test]
async fn headers_are_read_in_any_case_and_order() {
    let mut editor = Editor::connect(Session::new());
    let body = r#"{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}"#;
    let length = body.len();
    let frame = format!(
        "x-more: 1\r\nCONTENT-type: text; charset=latin-1\r\ncontent-length:{length}\r\n\r\n{body}"
    );
    // In pieces, as a slow pipe brings them.
    for piece in frame.as_bytes().chunks(7) {
        editor.send(piece).await;
    }
    assert_eq!(
        editor.answer(1).await["result"]["serverInfo"]["name"],
        "quillet"
    );
}

#[tokio::test]
async fn an_unknown_request_is_answered_and_an_unknown_notification_is_not() {
    let mut editor = Editor::start().await;
    for method in [
        "textDocument/nothing",
        "$/nothing",
        "$/cancelRequest",
        "rubbish",
    ] {
        let id = editor.request(method, json!({})).await;
        assert_eq!(
            editor.error(json!(id)).await["code"],
            METHOD_NOT_FOUND,
            "{method}"
        );
    }
    editor.everything().await;
    for method in ["$/nothing", "textDocument/nothing"] {
        editor.notify(method, json!({})).await;
    }
    assert_eq!(editor.everything().await, Vec::<Value>::new());
    let id = editor
        .request("textDocument/hover", json!({"textDocument": 7}))
        .await;
    assert_eq!(editor.error(json!(id)).await["code"], INVALID_PARAMS);
    lives(&mut editor).await;
}

#[tokio::test]
#[cfg(unix)]
async fn the_server_ends_when_the_process_of_its_editor_is_gone() {
    let mut process = std::process::Command::new("sleep")
        .arg("600")
        .spawn()
        .unwrap();
    let mut editor = Editor::connect(Session::new());
    let params = json!({"processId": process.id(), "capabilities": {}});
    editor.ask("initialize", params).await;
    editor.notify("initialized", json!({})).await;
    assert_eq!(
        editor
            .ask(
                "quillet/preview",
                json!({"textDocument": {"uri": "untitled:a"}})
            )
            .await,
        Value::Null
    );
    process.kill().unwrap();
    // Its parent, this test, has not been told yet: what is left of it is not it.
    assert_eq!(editor.ended().await, Ended::Abrupt);
    process.wait().unwrap();
}

/// Serves with an end of each pipe in hand, and says how that ended.
async fn served(
    play: impl AsyncFnOnce(&mut tokio::io::DuplexStream, tokio::io::DuplexStream),
) -> Ended {
    let (mut to, input) = tokio::io::duplex(1 << 12);
    let (output, from) = tokio::io::duplex(1 << 12);
    let server = tokio::spawn(Session::new().with_probes().serve(input, output));
    play(&mut to, from).await;
    let ended = tokio::time::timeout(Duration::from_secs(20), server).await;
    ended
        .expect("the server goes on")
        .expect("the server panicked")
}

fn opening() -> Vec<u8> {
    frame(br#"{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}"#)
}

#[tokio::test]
async fn the_server_ends_when_nobody_reads_it() {
    let ended = served(async |to, from| {
        drop(from);
        // What is written meanwhile may find the pipe closed already.
        let _ = to.write_all(&opening()).await;
        let ask = frame(br#"{"jsonrpc":"2.0","id":2,"method":"rubbish"}"#);
        for _ in 0..200 {
            if to.write_all(&ask).await.is_err() {
                break;
            }
        }
    });
    assert_eq!(ended.await, Ended::Abrupt);
}

#[tokio::test]
async fn the_server_ends_when_the_pipe_closes_though_a_request_never_ends() {
    let ended = served(async |to, from| {
        to.write_all(&opening()).await.unwrap();
        let slow =
            br#"{"jsonrpc":"2.0","id":2,"method":"quillet/probe/slow","params":{"ms":3600000}}"#;
        to.write_all(&frame(slow)).await.unwrap();
        to.write_all(b"Content-Length: 100\r\n\r\n{\"half")
            .await
            .unwrap();
        to.shutdown().await.unwrap();
        // Kept open: it is the input that ends.
        std::mem::forget(from);
    });
    assert_eq!(ended.await, Ended::Abrupt);
}

#[tokio::test]
async fn settings_that_are_sent_unasked_do_not_stop_the_session() {
    let mut editor = Editor::start().await;
    let settings = json!({"settings": {"quillet": {"units": "in"}}});
    editor
        .notify("workspace/didChangeConfiguration", settings)
        .await;
    lives(&mut editor).await;
}

#[tokio::test]
async fn an_open_text_longer_than_a_design_is_refused_as_the_disk_is_until_it_is_shorter() {
    let (big, user) = (
        "file:///nowhere/big.quillet",
        "file:///nowhere/user.quillet",
    );
    let mut editor = Editor::start().await;
    // 16 MB and one byte, the bound that `use` has.
    editor.open(big, &" ".repeat((16 << 20) + 1)).await;
    let found = editor.diagnostics(big, 1).await;
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0]["severity"], 1);
    let message = found[0]["message"].as_str().unwrap();
    assert!(message.contains("longer than 16 MB"), "{message}");
    editor.open(user, "use \"big.quillet\"\n").await;
    let found = editor.diagnostics(user, 1).await;
    assert_eq!(found[0]["code"], "missing-file", "{found:?}");
    let cut = json!({"start": {"line": 0, "character": 0}, "end": {"line": 0, "character": 1}});
    let change = json!([{"range": cut, "text": ""}]);
    editor.change(big, 2, change).await;
    assert_eq!(editor.diagnostics(big, 2).await, [] as [Value; 0]);
}
