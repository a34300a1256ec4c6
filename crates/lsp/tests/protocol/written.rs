//! What can be written at a place, as an editor gets it: in its order, and with what it can insert.

use crate::editor::Editor;
use serde_json::{Value, json};

const URI: &str = "untitled:pen";

const PEN: &str = "\
material reed \"Reed\" {
  kind acrylic
}
let grip = 11.4
part cap from mouth to crown {
  length 60
}
part barrel from mouth to tail {
  length 80
}
pen heron {
}
";

/// An editor that takes snippets, or not.
fn able(snippets: bool) -> Value {
    json!({"textDocument": {"completion": {"completionItem": {"snippetSupport": snippets}}}})
}

/// Asks at `|` of the pen with a line written behind another.
async fn asked(capabilities: Value, method: &str, behind: &str, line: &str) -> Value {
    let text = PEN.replacen(behind, &format!("{behind}{line}\n"), 1);
    let before = &text[..text.find('|').unwrap()];
    let (row, column) = (
        before.matches('\n').count(),
        before.rsplit('\n').next().unwrap().len(),
    );
    let mut editor = Editor::start_with(capabilities, None).await;
    editor.open(URI, &text.replacen('|', "", 1)).await;
    let position = json!({"line": row, "character": column});
    let params = json!({"textDocument": {"uri": URI}, "position": position});
    editor.ask(&format!("textDocument/{method}"), params).await
}

/// The items, as an editor that goes by `sortText` shows them.
fn shown(list: &Value) -> Vec<&Value> {
    let mut items: Vec<&Value> = list["items"].as_array().unwrap().iter().collect();
    items.sort_by_key(|it| it["sortText"].as_str().unwrap());
    items
}

fn labels(list: &Value) -> Vec<&str> {
    let items = shown(list).into_iter();
    items.map(|it| it["label"].as_str().unwrap()).collect()
}

#[tokio::test]
async fn what_a_block_lacks_is_shown_first_and_what_stands_once_not_again() {
    let list = asked(able(true), "completion", "length 60\n", "  |").await;
    let labels = labels(&list);
    assert_eq!(labels[..3], ["blank", "outside", "from"]);
    assert!(!labels.contains(&"length"), "{labels:?}");
    let late = &labels[labels.len() - 4..];
    assert!(
        ["want", "accept", "limit", "let"]
            .iter()
            .all(|it| late.contains(it)),
        "{labels:?}"
    );
}

#[tokio::test]
async fn a_let_is_offered_materials_then_quantities_then_functions() {
    let list = asked(able(true), "completion", "grip = 11.4\n", "let body = |").await;
    assert_eq!(labels(&list), ["reed", "grip", "min", "max"]);
}

#[tokio::test]
async fn a_joint_has_its_faces_as_choices_where_snippets_are_taken_else_its_word() {
    for (snippets, format, text) in [
        (
            true,
            2,
            "screw ${1|cap.mouth,cap.crown,barrel.mouth,barrel.tail|} \
             into ${2|barrel.mouth,barrel.tail,cap.mouth,cap.crown|}",
        ),
        (false, 1, "screw"),
    ] {
        let list = asked(able(snippets), "completion", "pen heron {\n", "  |").await;
        let items = shown(&list);
        let screw = items.iter().find(|it| it["label"] == "screw").unwrap();
        assert_eq!(screw["insertTextFormat"], format);
        assert_eq!(screw["textEdit"]["newText"], text);
        let any = items
            .iter()
            .any(|it| it["textEdit"]["newText"].as_str().unwrap().contains("${"));
        assert_eq!(any, snippets);
    }
}

#[tokio::test]
async fn how_a_statement_is_written_is_told_while_it_is_and_not_once_it_is_whole() {
    for (line, told) in [
        ("  blank of reed |", true),
        ("  bla|nk of reed rod 18", false),
        ("  blank of |reed rod 18", false),
        ("  blank of reed rod 18|", false),
        ("  blank of reed rod 18 |", true),
    ] {
        let signature = asked(json!({}), "signatureHelp", "length 60\n", line).await;
        assert_eq!(signature.is_object(), told, "{line}: {signature}");
    }
}

#[tokio::test]
async fn a_choice_is_explained_in_the_form_that_the_editor_names_first() {
    for (format, kind) in [(json!(["plaintext"]), "plaintext"), (json!([]), "markdown")] {
        let item = json!({"documentationFormat": format});
        let can = json!({"textDocument": {"completion": {"completionItem": item}}});
        let mut editor = Editor::start_with(can, None).await;
        editor.open(URI, "limit \n").await;
        let position = json!({"line": 0, "character": 6});
        let params = json!({"textDocument": {"uri": URI}, "position": position});
        let list = editor.ask("textDocument/completion", params).await;
        let items = list["items"].as_array().unwrap();
        let wall = items.iter().find(|it| it["label"] == "thin-wall").unwrap();
        let told = editor.ask("completionItem/resolve", wall.clone()).await;
        let told = &told["documentation"];
        assert_eq!(told["kind"], kind);
        let text = told["value"].as_str().unwrap();
        assert_eq!(text.contains('`'), kind == "markdown", "{text}");
    }
}
