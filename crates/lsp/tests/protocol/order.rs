//! The order of the wire is kept, nothing stale is shown, and nothing slow is in the way.

use crate::dice::Dice;
use crate::editor::Editor;
use quillet_lsp::Session;
use serde_json::{Value, json};
use std::time::{Duration, Instant};

const URI: &str = "untitled:pen";

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn three_hundred_changes_in_bursts_leave_the_text_of_a_plain_string() {
    let mut editor = Editor::start().await;
    let mut dice = Dice::new(0x9e37_79b9_7f4a_7c15);
    let mut model = String::from("-- a barrel\nlet grip = 11.4\n");
    editor.open(URI, &model).await;
    let mut asked = Vec::new();
    for version in 2..302 {
        let (from, to) = (dice.throw(model.len() + 1), dice.throw(model.len() + 1));
        let (from, to) = (from.min(to), from.max(to).min(from.min(to) + 6));
        let new = ["x", "\n", "let a = 1\n", "", "0.4"][dice.throw(5)];
        let range = json!({"start": place(&model, from), "end": place(&model, to)});
        model.replace_range(from..to, new);
        editor
            .change(URI, version, json!([{"range": range, "text": new}]))
            .await;
        if dice.throw(4) == 0 {
            // Asked in the middle of a burst: it must see just the changes sent before it.
            let id = editor
                .request("quillet/probe/text", json!({"uri": URI}))
                .await;
            asked.push((id, model.clone()));
        }
        if dice.throw(20) == 0 {
            tokio::time::sleep(Duration::from_millis(3)).await;
        }
    }
    assert!(asked.len() > 40);
    for (id, expected) in asked {
        assert_eq!(editor.answer(id).await["result"], Value::String(expected));
    }
    assert_eq!(editor.text(URI).await, model);
    editor.diagnostics(URI, 301).await;
}

/// A place in ASCII text.
fn place(text: &str, offset: usize) -> Value {
    let before = &text[..offset];
    let line = before.matches('\n').count();
    let column = offset - before.rfind('\n').map_or(0, |at| at + 1);
    json!({"line": line, "character": column})
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn results_for_an_old_version_are_dropped() {
    let slow = Session::new()
        .with_probes()
        .with_slow_analysis(Duration::from_millis(60));
    let mut editor = Editor::connect(slow);
    editor.ask("initialize", json!({"capabilities": {}})).await;
    editor.notify("initialized", json!({})).await;
    editor.open(URI, "let a = 1\n").await;
    for version in 2..40 {
        let end = json!({"line": 0, "character": 0});
        editor
            .change(
                URI,
                version,
                json!([{"range": {"start": end, "end": end}, "text": "--"}]),
            )
            .await;
        tokio::time::sleep(Duration::from_millis(4)).await;
    }
    editor.diagnostics(URI, 39).await;
    let versions: Vec<i64> = editor
        .everything()
        .await
        .iter()
        .filter(|message| message["method"] == "textDocument/publishDiagnostics")
        .map(|message| message["params"]["version"].as_i64().unwrap())
        .collect();
    assert!(
        versions.len() < 10,
        "one running and one waiting at most: {versions:?}"
    );
    assert!(versions.is_sorted(), "{versions:?}");
    assert!(!versions.contains(&40));
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_cancel_and_a_fast_request_are_answered_while_four_slow_ones_run() {
    let mut editor = Editor::start().await;
    editor.open(URI, "let a = 1\n").await;
    let mut slow = Vec::new();
    for _ in 0..4 {
        slow.push(
            editor
                .request("quillet/probe/slow", json!({"ms": 3000}))
                .await,
        );
    }
    let begun = Instant::now();
    assert_eq!(editor.text(URI).await, "let a = 1\n");
    editor
        .notify("$/cancelRequest", json!({"id": slow[2]}))
        .await;
    // -32800, "request cancelled".
    assert_eq!(editor.answer(slow[2]).await["error"]["code"], -32800);
    assert!(
        begun.elapsed() < Duration::from_millis(2500),
        "they waited for the slow ones"
    );
    for id in [slow[0], slow[1], slow[3]] {
        assert_eq!(editor.answer(id).await["result"], "slept");
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_cancelled_request_stops_working() {
    let mut editor = Editor::start().await;
    let id = editor
        .request("quillet/probe/slow", json!({"ms": 60_000}))
        .await;
    editor.notify("$/cancelRequest", json!({"id": id})).await;
    assert_eq!(editor.answer(id).await["error"]["code"], -32800);
    let begun = Instant::now();
    loop {
        if editor.ask("quillet/probe/working", json!({})).await == json!(0) {
            break;
        }
        assert!(
            begun.elapsed() < Duration::from_secs(5),
            "it works on for nobody"
        );
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
}
