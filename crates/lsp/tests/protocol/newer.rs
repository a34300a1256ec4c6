//! What LSP 3.18 has beyond 3.17: given to an editor that says it takes it, and to no other.

use crate::editor::Editor;
use serde_json::{Value, json};

const URI: &str = "untitled:pen";

/// A tenon too thin for its thread, for which there are two sizes to turn it to (ISO 965-1, 6g).
const THIN: &str = "\
part section from tip to shank {
  blank of acrylic rod 13
  length 30
  outside dia 11
  from shank {
    tenon 9.75 for 8
    thread M10x0.75 outside for 6
  }
}
";

fn document() -> Value {
    json!({"uri": URI})
}

fn range(from: [u64; 2], to: [u64; 2]) -> Value {
    let place = |[line, column]: [u64; 2]| json!({"line": line, "character": column});
    json!({"start": place(from), "end": place(to)})
}

async fn cures(capabilities: Value) -> Vec<Value> {
    let mut editor = Editor::start_with(capabilities, None).await;
    editor.open(URI, THIN).await;
    let params = json!({
        "textDocument": document(), "range": range([5, 10], [5, 14]),
        "context": {"diagnostics": [], "only": ["quickfix"]},
    });
    let actions = editor.ask("textDocument/codeAction", params).await;
    let mut all = actions.as_array().unwrap().clone();
    let of_tenon = |it: &Value| it["diagnostics"][0]["code"] == "off-tenon";
    all.retain(|it| of_tenon(it) && !it["title"].as_str().unwrap().starts_with("accept"));
    all
}

#[tokio::test]
async fn cures_at_one_place_are_a_choice_where_edits_may_be_snippets() {
    let versioned = json!({"documentChanges": true});
    let plain = cures(json!({"workspace": {"workspaceEdit": versioned}})).await;
    let written = |it: &Value| {
        let edit = &it["edit"]["documentChanges"][0]["edits"][0];
        (edit["range"] == range([5, 10], [5, 14]))
            .then(|| edit["newText"].as_str().unwrap().to_owned())
    };
    let sizes: Vec<String> = plain.iter().filter_map(written).collect();
    assert!(sizes.len() > 1 && sizes[0] == "9.9", "{plain:?}");
    let able = json!({"documentChanges": true, "snippetEditSupport": true});
    let mut all = cures(json!({"workspace": {"workspaceEdit": able}})).await;
    let choice = all.pop().unwrap();
    assert_eq!(all, plain);
    assert_eq!(
        choice["title"],
        format!("choose one of {}", sizes.join(", "))
    );
    assert_eq!(choice["kind"], "quickfix");
    assert_eq!(choice["diagnostics"], plain[0]["diagnostics"]);
    let value = format!("${{1|{}|}}", sizes.join(","));
    let edit = json!({
        "range": range([5, 10], [5, 14]), "snippet": {"kind": "snippet", "value": value},
    });
    let changes = json!([{"textDocument": {"uri": URI, "version": 1}, "edits": [edit]}]);
    assert_eq!(choice["edit"], json!({"documentChanges": changes}));
    // A snippet stands only among versioned edits.
    let unversioned = json!({"workspace": {"workspaceEdit": {"snippetEditSupport": true}}});
    assert_eq!(cures(unversioned).await.len(), plain.len());
}

#[tokio::test]
async fn several_ranges_are_formatted_at_once() {
    const TEXT: &str = "let  a = 1\nlet  b = 2\nlet  c = 3\nlet  d = 4\n";
    let able = json!({"textDocument": {"rangeFormatting": {"rangesSupport": true}}});
    let mut editor = Editor::start_with(able, None).await;
    let said = &editor.capabilities["documentRangeFormattingProvider"];
    assert_eq!(*said, json!({"rangesSupport": true}));
    editor.open(URI, TEXT).await;
    let all = [
        range([0, 0], [0, 3]),
        range([2, 0], [2, 4]),
        range([2, 1], [2, 6]),
    ];
    let params = json!({
        "textDocument": document(), "ranges": all, "options": {"tabSize": 2, "insertSpaces": true},
    });
    let edits = editor.ask("textDocument/rangesFormatting", params).await;
    let lines = edits
        .as_array()
        .unwrap()
        .iter()
        .map(|it| &it["range"]["start"]["line"]);
    let lines: Vec<u64> = lines.map(|it| it.as_u64().unwrap()).collect();
    assert_eq!(lines, [0, 2]);
    let wrong =
        json!({"textDocument": document(), "ranges": [range([9, 0], [9, 1])], "options": {}});
    let id = editor.request("textDocument/rangesFormatting", wrong).await;
    assert_eq!(editor.answer(id).await["error"]["code"], -32602);
    // One that knows nothing of it is told as before.
    let plain = Editor::start().await;
    assert_eq!(plain.capabilities["documentRangeFormattingProvider"], true);
}
