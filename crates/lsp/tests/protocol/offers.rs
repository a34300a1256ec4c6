//! What an editor says that it can is what it gets, and one that says nothing gets what all can.

use crate::editor::{Editor, uri};
use serde_json::{Value, json};
use std::path::PathBuf;
use std::time::Duration;
use tokio::time::Instant;

const SHARED: &str = "let grip = 11.4\n";
const PEN: &str = "use \"shared.quillet\"\n\n-- a note\npart section from tip to shank {\n  length 30\n  outside dia grip\n}\n";

/// A folder with a pen, what it uses, and a pen deeper down that uses it too.
struct Bench(tempfile::TempDir);

impl Bench {
    fn new() -> Self {
        let bench = Self(tempfile::tempdir().unwrap());
        std::fs::create_dir(bench.path("deep")).unwrap();
        std::fs::create_dir(bench.path("beside")).unwrap();
        let users = [
            ("pen.quillet", PEN.to_owned()),
            ("deep/pen.quillet", PEN.replace("shared.", "../shared.")),
            ("beside/pen.quillet", PEN.replace("shared.", "../shared.")),
        ];
        for (name, text) in users {
            std::fs::write(bench.path(name), text).unwrap();
        }
        std::fs::write(bench.path("shared.quillet"), SHARED).unwrap();
        bench
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn uri(&self, name: &str) -> String {
        uri(&self.path(name))
    }
}

/// Gives `grip` another name, asked at its definition in the open shared file.
async fn renamed(editor: &mut Editor, bench: &Bench) -> Value {
    let params = json!({
        "textDocument": {"uri": bench.uri("shared.quillet")},
        "position": {"line": 0, "character": 5},
        "newName": "hold",
    });
    editor.ask("textDocument/rename", params).await
}

#[tokio::test]
async fn edits_carry_the_version_they_are_of_where_the_editor_takes_it() {
    let bench = Bench::new();
    let versioned = json!({"workspace": {"workspaceEdit": {"documentChanges": true}}});
    let mut editor = Editor::start_with(versioned, Some(bench.0.path())).await;
    let shared = bench.uri("shared.quillet");
    editor.open(&shared, SHARED).await;
    let spaced = json!([{"text": "let  grip = 11.4\n"}]);
    editor.change(&shared, 7, spaced).await;
    editor.everything().await;
    let edit = renamed(&mut editor, &bench).await;
    assert!(edit.get("changes").is_none(), "{edit}");
    let all = edit["documentChanges"].as_array().unwrap();
    assert_eq!(all.len(), 4, "{edit}");
    for it in all {
        let version = &it["textDocument"]["version"];
        match it["textDocument"]["uri"] == json!(shared) {
            true => assert_eq!(*version, json!(7)),
            // Said to be none: the disk counts.
            false => assert_eq!(it["textDocument"].get("version"), Some(&Value::Null)),
        }
    }
    let mut plain = Editor::start_with(json!({}), Some(bench.0.path())).await;
    plain.open(&shared, SHARED).await;
    plain.everything().await;
    let edit = renamed(&mut plain, &bench).await;
    assert!(edit.get("documentChanges").is_none(), "{edit}");
    assert_eq!(edit["changes"].as_object().unwrap().len(), 4, "{edit}");
}

#[tokio::test]
async fn without_a_folder_a_name_is_followed_beside_what_is_open_and_not_deeper() {
    let bench = Bench::new();
    let mut editor = Editor::start().await;
    editor.open(&bench.uri("shared.quillet"), SHARED).await;
    editor.everything().await;
    let edit = renamed(&mut editor, &bench).await;
    let mut changed: Vec<_> = edit["changes"].as_object().unwrap().keys().collect();
    changed.sort();
    let (pen, shared) = (bench.uri("pen.quillet"), bench.uri("shared.quillet"));
    assert_eq!(changed, [&pen, &shared]);
}

#[tokio::test]
async fn without_a_folder_the_folders_of_what_is_used_count_too() {
    let bench = Bench::new();
    std::fs::write(bench.path("broken.quillet"), "let wide = nothing\n").unwrap();
    let mut editor = Editor::start().await;
    let pen = bench.uri("beside/pen.quillet");
    let text = PEN.replace("shared.", "../shared.");
    editor.open(&pen, &text).await;
    let said = editor.everything().await;
    let params = json!({
        "textDocument": {"uri": pen}, "position": {"line": 5, "character": 15}, "newName": "hold",
    });
    let edit = editor.ask("textDocument/rename", params).await;
    let changes = edit["changes"].as_object().unwrap();
    assert!(changes.contains_key(&bench.uri("pen.quillet")), "{edit}");
    assert!(
        !changes.contains_key(&bench.uri("deep/pen.quillet")),
        "{edit}"
    );
    // What is found in those folders is told, and goes with the pen.
    let broken = bench.uri("broken.quillet");
    let found = |message: &Value, some: bool| {
        message["params"]["uri"] == json!(broken)
            && (message["params"]["diagnostics"] != json!([])) == some
    };
    assert!(said.iter().any(|it| found(it, true)), "{said:?}");
    let closed = json!({"textDocument": {"uri": pen}});
    editor.notify("textDocument/didClose", closed).await;
    let said = editor.everything().await;
    assert!(said.iter().any(|it| found(it, false)), "{said:?}");
}

#[tokio::test]
async fn an_edit_in_a_used_file_asks_for_all_that_is_shown_of_its_users() {
    let bench = Bench::new();
    let able = json!({"refreshSupport": true});
    let can = json!({
        "textDocument": {"diagnostic": {}},
        // As the protocol spells it; the library's types have another name.
        "workspace": {"diagnostics": able, "inlayHint": able, "codeLens": able, "semanticTokens": able},
    });
    let mut editor = Editor::start_with(can, Some(bench.0.path())).await;
    editor.open(&bench.uri("pen.quillet"), PEN).await;
    editor.everything().await;
    let shared = bench.uri("shared.quillet");
    editor.open(&shared, SHARED).await;
    editor.everything().await;
    // Nothing is found that was not before; the hints are others.
    let wider = json!([{"text": "let grip = 11.5\n"}]);
    editor.change(&shared, 2, wider).await;
    for what in ["diagnostic", "inlayHint", "codeLens", "semanticTokens"] {
        editor.heard(&format!("workspace/{what}/refresh")).await;
    }
}

#[tokio::test]
async fn an_editor_with_a_grammar_is_told_what_that_cannot_know() {
    let augments = json!({"textDocument": {"semanticTokens": {
        "requests": {}, "tokenTypes": [], "tokenModifiers": [], "formats": ["relative"],
        "augmentsSyntaxTokens": true,
    }}});
    let mut kinds = Vec::new();
    for capabilities in [json!({}), augments] {
        let mut editor = Editor::start_with(capabilities, None).await;
        editor.open("untitled:pen", PEN).await;
        let params = json!({"textDocument": {"uri": "untitled:pen"}});
        let tokens = editor.ask("textDocument/semanticTokens/full", params).await;
        let legend = &editor.capabilities["semanticTokensProvider"]["legend"]["tokenTypes"];
        let data = tokens["data"].as_array().unwrap();
        let kind = |token: &[Value]| {
            let number = usize::try_from(token[3].as_u64().unwrap()).unwrap();
            legend[number].as_str().unwrap().to_owned()
        };
        let told: std::collections::BTreeSet<String> = data.chunks(5).map(kind).collect();
        kinds.push(told);
    }
    let known_by_grammar = ["comment", "keyword", "number", "string"];
    assert!(known_by_grammar.iter().all(|it| kinds[0].contains(*it)));
    assert!(
        !known_by_grammar.iter().any(|it| kinds[1].contains(*it)),
        "{:?}",
        kinds[1]
    );
    assert!(
        kinds[1].contains("class") && kinds[1].contains("property"),
        "{:?}",
        kinds[1]
    );
}

#[tokio::test]
async fn hovers_come_in_the_form_that_the_editor_names_first() {
    for (format, kind) in [
        (json!(["plaintext", "markdown"]), "plaintext"),
        (json!(["markdown", "plaintext"]), "markdown"),
        (json!([]), "markdown"),
    ] {
        let can = json!({"textDocument": {"hover": {"contentFormat": format}}});
        let mut editor = Editor::start_with(can, None).await;
        let text = PEN.replace("dia grip", "dia 12");
        editor.open("untitled:pen", &text).await;
        let at = json!({"textDocument": {"uri": "untitled:pen"}, "position": {"line": 3, "character": 6}});
        let hover = editor.ask("textDocument/hover", at).await;
        assert_eq!(hover["contents"]["kind"], kind);
        let shown = hover["contents"]["value"].as_str().unwrap();
        assert!(shown.contains("\n- length: 30 mm"), "{shown}");
        assert!(!shown.contains("| "), "{shown}");
        assert_eq!(shown.contains("**"), kind == "markdown", "{shown}");
    }
}

#[tokio::test(start_paused = true)]
async fn however_fast_one_types_the_editor_is_asked_twice_a_second_at_most() {
    let bench = Bench::new();
    let able = json!({"refreshSupport": true});
    let can = json!({"workspace": {"inlayHint": able, "codeLens": able}});
    let mut editor = Editor::start_with(can, Some(bench.0.path())).await;
    editor.open(&bench.uri("pen.quillet"), PEN).await;
    let shared = bench.uri("shared.quillet");
    editor.open(&shared, SHARED).await;
    editor.everything().await;
    tokio::time::sleep(Duration::from_secs(2)).await;
    editor.everything().await;
    let begun = Instant::now();
    let mut asked = Vec::new();
    for version in 2..12 {
        let text = format!("let grip = 11.4{version}\n");
        editor
            .change(&shared, version, json!([{"text": text}]))
            .await;
        editor.diagnostics(&shared, version).await;
        tokio::time::sleep(Duration::from_millis(90)).await;
    }
    // The first at once; of the others the last is not forgotten.
    for _ in 0..3 {
        editor.heard("workspace/inlayHint/refresh").await;
        asked.push(begun.elapsed().as_millis() / 100);
    }
    let more = editor.everything().await;
    let hints = |it: &&Value| it["method"] == "workspace/inlayHint/refresh";
    assert_eq!(more.iter().filter(hints).count(), 0, "{more:?}");
    assert!(asked[2] >= 10, "{asked:?}");
}

#[tokio::test]
async fn an_editor_that_offers_nothing_is_asked_for_nothing() {
    let bench = Bench::new();
    for number in 0..30 {
        std::fs::write(bench.path(&format!("{number}.quillet")), PEN).unwrap();
    }
    let mut editor = Editor::start_with(json!({}), Some(bench.0.path())).await;
    let pen = bench.uri("pen.quillet");
    editor.open(&pen, PEN).await;
    let shared = bench.uri("shared.quillet");
    editor.open(&shared, SHARED).await;
    let wider = json!([{"text": "let grip = 11.5\n"}]);
    editor.change(&shared, 2, wider).await;
    let settings = json!({"settings": {"quillet": {"units": "in"}}});
    editor
        .notify("workspace/didChangeConfiguration", settings)
        .await;
    let show = json!({"command": "quillet.explain", "arguments": ["thin-wall"]});
    editor.ask("workspace/executeCommand", show).await;
    let line = json!({"textDocument": {"uri": pen}, "position": {"line": 5, "character": 2}});
    let list = editor.ask("textDocument/completion", line).await;
    let plain = |it: &Value| it["insertTextFormat"] == 1;
    assert!(
        list["items"].as_array().unwrap().iter().all(plain),
        "{list}"
    );
    let edit = renamed(&mut editor, &bench).await;
    assert!(edit["changes"].is_object(), "{edit}");
    // What is told is findings and lines for the log; whatever needs an answer would have an id.
    let said = editor.everything().await;
    let told = |it: &Value| {
        let method = it["method"].as_str().unwrap_or_default();
        it.get("id").is_none()
            && ["textDocument/publishDiagnostics", "window/logMessage"].contains(&method)
    };
    assert!(!said.is_empty() && said.iter().all(told), "{said:?}");
}
