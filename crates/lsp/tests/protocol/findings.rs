//! What is found reaches the editor: as it types, with both places and the rule's page.

use crate::editor::{Editor, uri};
use serde_json::{Value, json};

/// M12x0.8 outside over M10x1 inside leaves 0.509 mm; see the page of `thin-wall`.
const THIN: &str = r#"part barrel from mouth to tail {
  blank of acrylic rod 18
  length 40
  outside dia 14
  from mouth {
    tenon 11.9 for 8
    thread M12x0.8 outside for 5
    drill 9.0 to 15
    thread M10x1 inside to 9
  }
}
"#;

fn of_rule<'a>(found: &'a [Value], rule: &str) -> Vec<&'a Value> {
    found.iter().filter(|it| it["code"] == rule).collect()
}

#[tokio::test]
async fn a_finding_points_at_both_places_and_links_its_page() {
    let folder = tempfile::tempdir().unwrap();
    let uri = uri(&folder.path().join("thin.quillet"));
    let mut editor = Editor::start().await;
    editor.open(&uri, THIN).await;
    let found = editor.diagnostics(&uri, 1).await;
    let thin = of_rule(&found, "thin-wall");
    let first = thin.first().expect("a thin wall");
    assert_eq!(first["source"], "quillet");
    let related = &first["relatedInformation"][0];
    assert_eq!(related["location"]["uri"], json!(uri));
    assert_ne!(related["location"]["range"], first["range"]);
    let page = first["codeDescription"]["href"].as_str().expect("a page");
    let path = tower_lsp::lsp_types::Url::parse(page)
        .unwrap()
        .to_file_path()
        .unwrap();
    let page = std::fs::read_to_string(path).unwrap();
    assert!(page.starts_with("# thin-wall"), "{page}");
}

#[tokio::test]
async fn findings_go_when_the_fault_goes() {
    let mut editor = Editor::start().await;
    editor.open("untitled:thin", THIN).await;
    let found = editor.diagnostics("untitled:thin", 1).await;
    assert!(!of_rule(&found, "thin-wall").is_empty(), "{found:?}");
    let better = THIN
        .replace("M12x0.8", "M13x0.8")
        .replace("11.9", "12.9")
        .replace("M10x1", "M10x0.75");
    editor
        .change("untitled:thin", 2, json!([{"text": better}]))
        .await;
    let found = editor.diagnostics("untitled:thin", 2).await;
    assert!(of_rule(&found, "thin-wall").is_empty(), "{found:?}");
}

#[tokio::test]
async fn an_edit_in_a_shared_file_refreshes_the_pens_that_use_it() {
    let folder = tempfile::tempdir().unwrap();
    let (shared, pen) = (
        folder.path().join("shared.quillet"),
        folder.path().join("pen.quillet"),
    );
    std::fs::write(&shared, "let grip = 11.4\n").unwrap();
    std::fs::write(&pen, "use \"shared.quillet\"\nlet wide = grip + 1\n").unwrap();
    let mut editor = Editor::start_with(json!({}), Some(folder.path())).await;
    editor.open(&uri(&shared), "let grip = 11.4\n").await;
    editor.diagnostics(&uri(&shared), 1).await;
    editor
        .change(&uri(&shared), 2, json!([{"text": "let grap = 11.4\n"}]))
        .await;
    editor.diagnostics(&uri(&shared), 2).await;
    // The pen is not open; it is in the folder.
    let found = loop {
        let reported = editor.heard("textDocument/publishDiagnostics").await;
        let unknown = |it: &Value| it["code"] == "unknown-name";
        if reported["uri"] == json!(uri(&pen))
            && reported["diagnostics"]
                .as_array()
                .unwrap()
                .iter()
                .any(unknown)
        {
            break reported;
        }
    };
    assert_eq!(found["version"], Value::Null);
    // And the file as the disk has it counts again when it is closed.
    editor
        .notify(
            "textDocument/didClose",
            json!({"textDocument": {"uri": uri(&shared)}}),
        )
        .await;
    loop {
        let reported = editor.heard("textDocument/publishDiagnostics").await;
        let unknown = |it: &Value| it["code"] == "unknown-name";
        if reported["uri"] == json!(uri(&pen))
            && !reported["diagnostics"]
                .as_array()
                .unwrap()
                .iter()
                .any(unknown)
        {
            break;
        }
    }
}

#[tokio::test]
async fn an_editor_that_pulls_is_told_nothing_unasked() {
    let pulls = json!({"textDocument": {"diagnostic": {}}});
    let mut editor = Editor::start_with(pulls, None).await;
    editor.open("untitled:thin", THIN).await;
    let params = json!({"textDocument": {"uri": "untitled:thin"}});
    let report = editor.ask("textDocument/diagnostic", params).await;
    assert_eq!(report["kind"], "full");
    let found = report["items"].as_array().unwrap();
    assert!(!of_rule(found, "thin-wall").is_empty());
    let id = &report["resultId"];
    let params = json!({"textDocument": {"uri": "untitled:thin"}, "previousResultId": id});
    let again = editor.ask("textDocument/diagnostic", params).await;
    assert_eq!(again["kind"], "unchanged");
    let whole = editor
        .ask("workspace/diagnostic", json!({"previousResultIds": []}))
        .await;
    assert_eq!(whole["items"][0]["uri"], "untitled:thin");
    let pushed = editor.everything().await;
    assert!(
        pushed
            .iter()
            .all(|it| it["method"] != "textDocument/publishDiagnostics")
    );
}
