//! How a session begins and ends.

use crate::editor::Editor;
use quillet_lsp::{Ended, Session};
use serde_json::{Value, json};

#[tokio::test]
async fn ends_on_exit_though_the_pipe_stays_open() {
    let mut editor = Editor::start().await;
    editor.ask("shutdown", Value::Null).await;
    editor.notify("exit", Value::Null).await;
    assert_eq!(editor.ended().await, Ended::Orderly);
}

#[tokio::test]
async fn exit_without_shutdown_is_abrupt() {
    let mut editor = Editor::start().await;
    editor.notify("exit", Value::Null).await;
    assert_eq!(editor.ended().await, Ended::Abrupt);
}

#[tokio::test]
async fn messages_after_exit_do_not_keep_it_alive() {
    let mut editor = Editor::start().await;
    editor.ask("shutdown", Value::Null).await;
    editor.notify("exit", Value::Null).await;
    for _ in 0..20 {
        editor.request("textDocument/hover", json!({})).await;
    }
    assert_eq!(editor.ended().await, Ended::Orderly);
}

#[tokio::test]
async fn exit_is_heard_while_a_request_never_ends() {
    let mut editor = Editor::start().await;
    editor
        .request("quillet/probe/slow", json!({"ms": 3_600_000}))
        .await;
    editor.ask("shutdown", json!({})).await;
    editor.notify("exit", json!({})).await;
    assert_eq!(editor.ended().await, Ended::Orderly);
}

#[tokio::test]
async fn all_said_at_once_is_answered_in_full() {
    let mut editor = Editor::connect(Session::new());
    let first = editor
        .request("initialize", json!({"capabilities": {}}))
        .await;
    editor.notify("initialized", json!({})).await;
    editor.open("untitled:one", "-- nothing yet\n").await;
    let last = editor.request("shutdown", Value::Null).await;
    editor.notify("exit", Value::Null).await;
    let answer = editor.answer(first).await;
    assert_eq!(answer["result"]["serverInfo"]["name"], "quillet");
    assert_eq!(editor.answer(last).await["result"], Value::Null);
    assert_eq!(editor.ended().await, Ended::Orderly);
}

#[tokio::test]
async fn a_request_before_initialize_is_refused_by_its_code() {
    let mut editor = Editor::connect(Session::new());
    let id = editor.request("textDocument/hover", json!({})).await;
    // -32002, "server not initialized", is the protocol's.
    assert_eq!(editor.answer(id).await["error"]["code"], -32002);
}

#[tokio::test]
async fn probes_are_not_there_for_an_editor() {
    let mut editor = Editor::connect(Session::new());
    editor.ask("initialize", json!({"capabilities": {}})).await;
    let id = editor
        .request("quillet/probe/text", json!({"uri": "untitled:one"}))
        .await;
    // -32601, "method not found".
    assert_eq!(editor.answer(id).await["error"]["code"], -32601);
}
