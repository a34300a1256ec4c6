//! The language service as an editor meets it; what the answers say is tested beside `ide`.

use crate::editor::{Editor, uri};
use serde_json::{Value, json};

const URI: &str = "untitled:pen";

const PEN: &str = "\
thread joint = M10x0.75
part section from tip to shank {
  length 30
  outside dia 12
  from shank {
    thread joint outside for 6
    drill 8 to 17
  }
}
";

async fn with_pen(capabilities: Value) -> Editor {
    let mut editor = Editor::start_with(capabilities, None).await;
    editor.open(URI, PEN).await;
    editor
}

fn place(needle: &str) -> Value {
    let offset = PEN.find(needle).unwrap();
    let before = &PEN[..offset];
    let column = offset - before.rfind('\n').map_or(0, |at| at + 1);
    json!({"line": before.matches('\n').count(), "character": column})
}

fn at(needle: &str) -> Value {
    json!({"textDocument": {"uri": URI}, "position": place(needle)})
}

fn document() -> Value {
    json!({"textDocument": {"uri": URI}})
}

#[tokio::test]
async fn completions_carry_their_edit_and_are_explained_when_asked() {
    let mut editor = with_pen(json!({})).await;
    let list = editor.ask("textDocument/completion", at("drill 8")).await;
    let items = list["items"].as_array().unwrap();
    assert!(!items.is_empty());
    assert!(
        items
            .iter()
            .all(|item| item["textEdit"]["range"].is_object()),
        "{list}"
    );
    assert!(items.iter().all(|item| item.get("documentation").is_none()));
    // Without snippets nothing is written that an editor would have to understand.
    assert!(
        items
            .iter()
            .all(|item| !item["textEdit"]["newText"].as_str().unwrap().contains('$'))
    );
    let of_items = editor
        .ask("textDocument/completion", at("thread joint ="))
        .await;
    let of_items = of_items["items"].as_array().unwrap();
    assert!(of_items.iter().any(|item| item["label"] == "part"));
    assert!(!of_items.iter().any(|item| item["label"] == "part, whole"));
    let drill = items.iter().find(|item| item["label"] == "drill").unwrap();
    let reported = editor.ask("completionItem/resolve", drill.clone()).await;
    let text = reported["documentation"]["value"].as_str().unwrap();
    assert!(text.starts_with("A drilled hole"), "{text}");
}

#[tokio::test]
async fn snippets_are_for_editors_that_take_them() {
    let snippets =
        json!({"textDocument": {"completion": {"completionItem": {"snippetSupport": true}}}});
    let mut editor = with_pen(snippets).await;
    let list = editor.ask("textDocument/completion", at("drill 8")).await;
    let items = list["items"].as_array().unwrap();
    let drill = items.iter().find(|item| item["label"] == "drill").unwrap();
    assert_eq!(
        drill["textEdit"]["newText"],
        "drill ${1:size} to ${2:depth}"
    );
    assert_eq!(drill["insertTextFormat"], 2);
}

#[tokio::test]
async fn every_edit_ends_inside_the_document() {
    let mut editor = Editor::start().await;
    // No line end at the end, a line of characters that count differently, and nothing in form.
    let text = "let a=1 -- ⌀ 🖊\npart b from x to y {\nlength   3\n    }";
    editor.open(URI, text).await;
    let params =
        json!({"textDocument": {"uri": URI}, "options": {"tabSize": 4, "insertSpaces": false}});
    let edits = editor.ask("textDocument/formatting", params).await;
    let lines: Vec<usize> = text
        .split('\n')
        .map(|line| line.encode_utf16().count())
        .collect();
    assert!(!edits.as_array().unwrap().is_empty());
    for edit in edits.as_array().unwrap() {
        for end in ["start", "end"] {
            let place = &edit["range"][end];
            let line = usize::try_from(place["line"].as_u64().unwrap()).unwrap();
            let column = usize::try_from(place["character"].as_u64().unwrap()).unwrap();
            assert!(line < lines.len() && column <= lines[line], "{edit}");
        }
    }
}

#[tokio::test]
async fn a_place_past_the_end_is_an_error_and_a_column_past_the_line_is_not() {
    let mut editor = with_pen(json!({})).await;
    let beyond = json!({"textDocument": {"uri": URI}, "position": {"line": 99, "character": 0}});
    let id = editor.request("textDocument/hover", beyond).await;
    // -32602, "invalid params".
    assert_eq!(editor.answer(id).await["error"]["code"], -32602);
    let wide = json!({"textDocument": {"uri": URI}, "position": {"line": 0, "character": 4000}});
    assert!(editor.ask("textDocument/hover", wide).await.is_object());
}

#[tokio::test]
async fn settings_are_fetched_and_followed() {
    let capable =
        json!({"workspace": {"configuration": true, "inlayHint": {"refreshSupport": true}}});
    let mut editor = with_pen(capable).await;
    let all = json!({"start": {"line": 0, "character": 0}, "end": {"line": 99, "character": 0}});
    let params = json!({"textDocument": {"uri": URI}, "range": all});
    editor.heard("workspace/configuration").await;
    let hints = editor.ask("textDocument/inlayHint", params.clone()).await;
    assert!(hints.to_string().contains("tenon"), "{hints}");
    editor.configure(json!({"hints": {"tenons": false}}));
    editor
        .notify(
            "workspace/didChangeConfiguration",
            json!({"settings": null}),
        )
        .await;
    editor.heard("workspace/inlayHint/refresh").await;
    let hints = editor.ask("textDocument/inlayHint", params).await;
    assert!(!hints.to_string().contains("tenon"), "{hints}");
}

#[tokio::test]
async fn a_finding_brings_its_cure_and_the_cure_cures() {
    let mut editor = Editor::start().await;
    let slip = PEN.replace("length 30", "lenght 30");
    editor.open(URI, &slip).await;
    let found = editor.diagnostics(URI, 1).await;
    let syntax = found
        .iter()
        .find(|it| it["code"] == "syntax")
        .expect("a slip");
    let params = json!({
        "textDocument": {"uri": URI},
        "range": syntax["range"],
        "context": {"diagnostics": [syntax], "only": ["quickfix"]},
    });
    let actions = editor.ask("textDocument/codeAction", params).await;
    let cure = actions
        .as_array()
        .unwrap()
        .iter()
        .find(|it| it["isPreferred"] == true)
        .unwrap();
    assert_eq!(cure["diagnostics"][0]["range"], syntax["range"]);
    let edit = &cure["edit"]["changes"][URI][0];
    let change = json!([{"range": edit["range"], "text": edit["newText"]}]);
    editor.change(URI, 2, change).await;
    assert_eq!(editor.text(URI).await, PEN);
}

#[tokio::test]
async fn names_are_renamed_across_files_and_files_are_followed() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    std::fs::write(path("shared.quillet"), "let grip = 11.4\n").unwrap();
    std::fs::write(
        path("pen.quillet"),
        "use \"shared.quillet\"\nlet wide = grip + 1\n",
    )
    .unwrap();
    let mut editor = Editor::start_with(json!({}), Some(folder.path())).await;
    let shared = uri(&path("shared.quillet"));
    editor.open(&shared, "let grip = 11.4\n").await;
    // Neither file that uses the name is open; both are found in the folder.
    editor.everything().await;
    let params = json!({"textDocument": {"uri": shared}, "position": {"line": 0, "character": 5}, "newName": "hold"});
    let edit = editor.ask("textDocument/rename", params).await;
    assert_eq!(edit["changes"].as_object().unwrap().len(), 2, "{edit}");
    let moved = json!({"files": [{"oldUri": shared, "newUri": uri(&path("bench.quillet"))}]});
    let edit = editor.ask("workspace/willRenameFiles", moved).await;
    let pen = &edit["changes"][uri(&path("pen.quillet"))];
    assert_eq!(pen[0]["newText"], "\"bench.quillet\"");
}

#[tokio::test]
async fn a_preview_is_drawn_and_told_of_when_it_changes() {
    let mut editor = with_pen(json!({})).await;
    editor.diagnostics(URI, 1).await;
    let first = editor.ask("quillet/preview", at("length 30")).await;
    assert_eq!(first["name"], "section");
    assert!(
        first["pictures"][0]["svg"]
            .as_str()
            .unwrap()
            .contains("<svg"),
        "{first}"
    );
    editor
        .change(
            URI,
            2,
            json!([{"text": PEN.replace("length 30", "length 40")}]),
        )
        .await;
    assert_eq!(editor.heard("quillet/previewChanged").await["version"], 2);
    let second = editor.ask("quillet/preview", at("length 30")).await;
    assert_ne!(first["pictures"], second["pictures"]);
}

#[tokio::test]
async fn what_can_be_asked_is_answered() {
    let mut editor = with_pen(json!({})).await;
    for method in [
        "documentSymbol",
        "foldingRange",
        "codeLens",
        "semanticTokens/full",
    ] {
        let answer = editor
            .ask(&format!("textDocument/{method}"), document())
            .await;
        assert!(!answer.is_null(), "{method}");
    }
    let tokens = editor
        .ask("textDocument/semanticTokens/full", document())
        .await;
    let all = tokens["data"].as_array().unwrap().len();
    let range = json!({"start": {"line": 1, "character": 0}, "end": {"line": 2, "character": 0}});
    let params = json!({"textDocument": {"uri": URI}, "range": range});
    let some = editor
        .ask("textDocument/semanticTokens/range", params)
        .await;
    let some = some["data"].as_array().unwrap().len();
    assert!(0 < some && some < all, "{some} of {all}");
    let items = editor
        .ask("textDocument/prepareCallHierarchy", at("joint ="))
        .await;
    let params = json!({"item": items[0]});
    let users = editor.ask("callHierarchy/incomingCalls", params).await;
    assert_eq!(users[0]["from"]["name"], "section");
}

#[tokio::test]
async fn many_files_are_told_as_progress() {
    let folder = tempfile::tempdir().unwrap();
    for number in 0..30 {
        std::fs::write(folder.path().join(format!("{number}.quillet")), PEN).unwrap();
    }
    let capable = json!({"window": {"workDoneProgress": true}});
    let mut editor = Editor::start_with(capable, Some(folder.path())).await;
    editor.heard("window/workDoneProgress/create").await;
    loop {
        if editor.heard("$/progress").await["value"]["kind"] == "end" {
            break;
        }
    }
}

#[tokio::test]
async fn files_are_watched_and_what_changes_on_the_disk_is_seen() {
    let folder = tempfile::tempdir().unwrap();
    let pen = folder.path().join("pen.quillet");
    std::fs::write(&pen, "let a = b\n").unwrap();
    let watches = json!({"workspace": {"didChangeWatchedFiles": {"dynamicRegistration": true}}});
    let mut editor = Editor::start_with(watches, Some(folder.path())).await;
    editor.heard("client/registerCapability").await;
    let reported = editor.heard("textDocument/publishDiagnostics").await;
    assert!(!reported["diagnostics"].as_array().unwrap().is_empty());
    std::fs::remove_file(&pen).unwrap();
    let gone = json!({"changes": [{"uri": uri(&pen), "type": 3}]});
    editor.notify("workspace/didChangeWatchedFiles", gone).await;
    let reported = editor.heard("textDocument/publishDiagnostics").await;
    assert_eq!(reported["diagnostics"], json!([]));
}
