//! Places in every encoding, and texts that are awkward to count in.

use crate::editor::Editor;
use serde_json::{Value, json};

const URI: &str = "untitled:pen";

/// An editor that offers these encodings, and the one that was chosen.
async fn offering(encodings: Value) -> (Editor, Value) {
    let mut editor = Editor::connect(quillet_lsp::Session::new().with_probes());
    let capabilities = json!({"general": {"positionEncodings": encodings}});
    let answer = editor
        .ask("initialize", json!({"capabilities": capabilities}))
        .await;
    editor.notify("initialized", json!({})).await;
    (editor, answer["capabilities"]["positionEncoding"].clone())
}

/// Replaces columns `from..to` of a line.
fn replace(line: u32, from: u32, to: u32, text: &str) -> Value {
    json!([{
        "range": {"start": {"line": line, "character": from}, "end": {"line": line, "character": to}},
        "text": text,
    }])
}

#[tokio::test]
async fn the_encoding_is_the_first_of_the_editors_that_is_known() {
    assert_eq!(offering(json!(["utf-8", "utf-16"])).await.1, "utf-8");
    assert_eq!(
        offering(json!(["utf-7", "utf-32", "utf-16"])).await.1,
        "utf-32"
    );
    assert_eq!(offering(json!(["utf-16", "utf-8"])).await.1, "utf-16");
    assert_eq!(offering(json!([])).await.1, "utf-16");
    assert_eq!(offering(Value::Null).await.1, "utf-16");
}

/// What stands before `⟨x⟩` counts 10 characters: `-- ` 3, `⌀` 1, `°` 1, `é` 1, `🖊` 1, ` ` 3.
const LINE: &str = "-- ⌀ ° é🖊 x";

#[tokio::test]
async fn columns_are_counted_in_the_units_agreed() {
    // Bytes: 3 + 3 + 1 + 2 + 1 + 2 + 4 + 1; code units: 3+1+1+1+1+1+2+1; characters: one less.
    for (encoding, column) in [("utf-8", 17), ("utf-16", 11), ("utf-32", 10)] {
        for end in ["\n", "\r\n", "\r"] {
            let (mut editor, chosen) = offering(json!([encoding])).await;
            assert_eq!(chosen, encoding);
            editor.open(URI, &format!("{LINE}{end}{LINE}{end}")).await;
            editor
                .change(URI, 2, replace(1, column, column + 1, "here"))
                .await;
            let expected = format!("{LINE}{end}{}{end}", LINE.replace('x', "here"));
            assert_eq!(editor.text(URI).await, expected, "{encoding} {end:?}");
        }
    }
}

#[tokio::test]
async fn columns_past_the_end_clamp_to_the_line() {
    let (mut editor, _) = offering(json!(["utf-16"])).await;
    editor.open(URI, "let a = 1\r\nlet b = 2\r\n").await;
    editor
        .change(URI, 2, replace(0, 9, 4_000_000_000, " -- one"))
        .await;
    assert_eq!(editor.text(URI).await, "let a = 1 -- one\r\nlet b = 2\r\n");
}

#[tokio::test]
async fn a_column_inside_a_surrogate_pair_moves_to_a_boundary() {
    let (mut editor, _) = offering(json!(["utf-16"])).await;
    editor.open(URI, "--🖊x\n").await;
    editor.change(URI, 2, replace(0, 3, 4, "")).await;
    let text = editor.text(URI).await;
    assert!(text == "--x\n" || text == "--🖊x\n", "{text:?}");
}

#[tokio::test]
async fn the_line_after_the_last_and_all_beyond_are_the_end_to_an_edit() {
    let (mut editor, _) = offering(json!(["utf-16"])).await;
    editor.open(URI, "let a = 1").await;
    let all = json!([{
        "range": {"start": {"line": 0, "character": 0}, "end": {"line": 1, "character": 0}},
        "text": "let b = 2",
    }]);
    editor.change(URI, 2, all).await;
    assert_eq!(editor.text(URI).await, "let b = 2");
    editor.change(URI, 3, replace(7, 0, 1, "3")).await;
    assert_eq!(editor.text(URI).await, "let b = 23");
    let whole = json!([{
        "range": {"start": {"line": 0, "character": 0}, "end": {"line": u32::MAX, "character": 0}},
        "text": "let c = 3",
    }]);
    editor.change(URI, 4, whole).await;
    assert_eq!(editor.text(URI).await, "let c = 3");
}

#[tokio::test]
async fn a_byte_order_mark_and_an_empty_file_are_texts_too() {
    let (mut editor, _) = offering(json!(["utf-16"])).await;
    editor.open(URI, "\u{feff}let a = 1\n").await;
    editor.change(URI, 2, replace(0, 5, 6, "b")).await;
    assert_eq!(editor.text(URI).await, "\u{feff}let b = 1\n");
    editor.change(URI, 3, json!([{"text": ""}])).await;
    assert_eq!(editor.text(URI).await, "");
    assert_eq!(editor.diagnostics(URI, 3).await, Vec::<Value>::new());
    editor.change(URI, 4, replace(0, 0, 0, "let a = 1")).await;
    assert_eq!(editor.text(URI).await, "let a = 1");
}

#[tokio::test]
async fn several_changes_of_one_message_apply_in_sequence() {
    let (mut editor, _) = offering(json!(["utf-8"])).await;
    editor.open(URI, "abc\n").await;
    let at = |from: u32, to: u32, text: &str| replace(0, from, to, text)[0].clone();
    editor
        .change(
            URI,
            2,
            json!([at(0, 1, ""), at(0, 1, "x"), {"text": "whole"}, at(5, 5, "!")]),
        )
        .await;
    assert_eq!(editor.text(URI).await, "whole!");
}
