//! What is half written is told once the maker pauses; all else at once. The clock stands still
//! but where nothing is left to do, so that no test waits.

use crate::editor::Editor;
use serde_json::{Value, json};
use std::time::Duration;
use tokio::time::{Instant, sleep};

const URI: &str = "untitled:barrel";

/// M12x0.8 outside over M10x1 inside leaves 0.509 mm; see the page of `thin-wall`.
const THIN: &str = "\
part barrel from mouth to tail {
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

";

/// The line after the last, on which is typed.
const LAST: usize = 12;

/// An editor in which the barrel is open and told of.
async fn with_barrel() -> Editor {
    let mut editor = Editor::start().await;
    editor.open(URI, THIN).await;
    editor.diagnostics(URI, 1).await;
    editor
}

/// Types at the start of a line.
async fn types(editor: &mut Editor, version: i64, line: usize, text: &str) {
    let place = json!({"line": line, "character": 0});
    let change = json!([{"range": {"start": place, "end": place}, "text": text}]);
    editor.change(URI, version, change).await;
}

/// The rule and the line of each finding.
fn reported(found: &[Value]) -> Vec<(&str, u64)> {
    let places = found.iter().map(|it| {
        let line = it["range"]["start"]["line"].as_u64().unwrap();
        (it["code"].as_str().unwrap(), line)
    });
    places.collect()
}

fn syntax(found: &[Value]) -> Vec<u64> {
    let slips = reported(found).into_iter().filter(|it| it.0 == "syntax");
    slips.map(|it| it.1).collect()
}

#[tokio::test(start_paused = true)]
async fn a_slip_on_the_line_that_is_typed_on_waits_and_all_else_does_not() {
    let mut editor = with_barrel().await;
    let begun = Instant::now();
    types(&mut editor, 2, LAST, "threa").await;
    let at_once = editor.diagnostics(URI, 2).await;
    assert!(begun.elapsed() < Duration::from_millis(50));
    assert_eq!(syntax(&at_once), [0; 0]);
    assert!(reported(&at_once).iter().any(|it| it.0 == "thin-wall"));
    let later = editor.diagnostics(URI, 2).await;
    let waited = begun.elapsed();
    assert_eq!(syntax(&later), [12]);
    assert_eq!(later.len(), at_once.len() + 1);
    let around = Duration::from_millis(300)..Duration::from_millis(320);
    assert!(around.contains(&waited), "{waited:?}");
}

#[tokio::test(start_paused = true)]
async fn a_slip_on_another_line_is_told_at_once() {
    let mut editor = with_barrel().await;
    types(&mut editor, 2, LAST, "threa\n").await;
    // The change ends on the line below.
    assert_eq!(syntax(&editor.diagnostics(URI, 2).await), [12]);
    types(&mut editor, 3, LAST + 1, "pann").await;
    assert_eq!(syntax(&editor.diagnostics(URI, 3).await), [12]);
    assert_eq!(syntax(&editor.diagnostics(URI, 3).await), [12, 13]);
    // What is shown already is not taken away and given back.
    types(&mut editor, 4, 0, "\n").await;
    assert_eq!(syntax(&editor.diagnostics(URI, 4).await), [13, 14]);
}

#[tokio::test(start_paused = true)]
async fn each_keystroke_begins_the_wait_anew() {
    let mut editor = with_barrel().await;
    let begun = Instant::now();
    for (version, letter) in (2..).zip(["a", "e", "r", "h", "t"]) {
        types(&mut editor, version, LAST, letter).await;
        assert_eq!(syntax(&editor.diagnostics(URI, version).await), [0; 0]);
        sleep(Duration::from_millis(200)).await;
    }
    let later = editor.diagnostics(URI, 6).await;
    assert_eq!(syntax(&later), [12]);
    let waited = begun.elapsed();
    let around = Duration::from_millis(1100)..Duration::from_millis(1120);
    assert!(around.contains(&waited), "{waited:?}");
}

#[tokio::test(start_paused = true)]
async fn what_was_mended_before_the_wait_was_over_is_never_told() {
    let mut editor = with_barrel().await;
    types(&mut editor, 2, LAST, " = 3").await;
    editor.diagnostics(URI, 2).await;
    sleep(Duration::from_millis(250)).await;
    types(&mut editor, 3, LAST, "let grip").await;
    editor.diagnostics(URI, 3).await;
    sleep(Duration::from_secs(2)).await;
    let pushed = editor.everything().await;
    let slips = pushed
        .iter()
        .filter_map(|it| it["params"]["diagnostics"].as_array());
    assert_eq!(slips.filter(|it| !syntax(it).is_empty()).count(), 0);
}

#[tokio::test(start_paused = true)]
async fn a_text_that_is_sent_whole_is_typed_on_where_it_differs() {
    let mut editor = with_barrel().await;
    let whole = THIN.replace("length 40", "lenght 40");
    editor.change(URI, 2, json!([{"text": whole}])).await;
    assert_eq!(syntax(&editor.diagnostics(URI, 2).await), [0; 0]);
    assert_eq!(syntax(&editor.diagnostics(URI, 2).await), [2]);
}

#[tokio::test(start_paused = true)]
async fn how_long_is_waited_can_be_set() {
    for (ms, around) in [(0, 0..50), (1500, 1500..1520)] {
        let mut editor = with_barrel().await;
        let settings = json!({"settings": {"quillet": {"syntaxDelay": ms}}});
        editor
            .notify("workspace/didChangeConfiguration", settings)
            .await;
        let begun = Instant::now();
        types(&mut editor, 2, LAST, "threa").await;
        while syntax(&editor.diagnostics(URI, 2).await) != [12] {}
        let waited = begun.elapsed().as_millis();
        assert!(around.contains(&waited), "{waited}");
    }
}

#[tokio::test(start_paused = true)]
async fn an_editor_that_asks_gets_all() {
    let pulls = json!({"textDocument": {"diagnostic": {}}});
    let mut editor = Editor::start_with(pulls, None).await;
    editor.open(URI, THIN).await;
    let begun = Instant::now();
    types(&mut editor, 2, LAST, "threa").await;
    let params = json!({"textDocument": {"uri": URI}});
    let report = editor.ask("textDocument/diagnostic", params).await;
    assert_eq!(syntax(report["items"].as_array().unwrap()), [12]);
    assert!(begun.elapsed() < Duration::from_millis(50));
}
