//! What ends late, a look through the folders or an editor's answer, loses nothing.

use crate::editor::Editor;
use quillet_lsp::Session;
use serde_json::{Value, json};
use std::time::Duration;

const URI: &str = "untitled:pen";

const REFRESH: &str = "workspace/inlayHint/refresh";

/// Of the second bench the drill is missing; none is chosen by the text.
const TWO_BENCHES: &str = "\
bench saltings { drills 8, 9 }
bench shore { drills 8 }
part barrel from mouth to tail {
  length 60
  outside dia 12
  from mouth { drill 9 to 40 }
}
";

/// An editor of these capabilities with one document open.
async fn open(session: Session, capabilities: Value, text: &str) -> Editor {
    let mut editor = Editor::connect(session.with_probes());
    editor
        .ask("initialize", json!({"capabilities": capabilities}))
        .await;
    editor.notify("initialized", json!({})).await;
    editor.open(URI, text).await;
    editor
}

/// An editor that can be asked to ask for its hints again, with a document that has been checked.
async fn checked(session: Session) -> Editor {
    let capabilities = json!({"workspace": {"inlayHint": {"refreshSupport": true}}});
    let mut editor = open(session, capabilities, "let grip = 11.4\n").await;
    editor.diagnostics(URI, 1).await;
    editor
}

async fn set(editor: &mut Editor, settings: Value) {
    editor
        .notify(
            "workspace/didChangeConfiguration",
            json!({"settings": settings}),
        )
        .await;
}

#[tokio::test]
async fn hints_are_asked_for_though_the_folder_is_looked_through_for_longer_than_the_check() {
    let slow = Session::new().with_slow_scan(Duration::from_millis(600));
    let mut editor = checked(slow).await;
    set(&mut editor, json!({"hints": {"tenons": false}})).await;
    editor.heard(REFRESH).await;
}

#[tokio::test]
async fn an_answer_for_which_nobody_waits_any_more_ends_nothing() {
    let mut editor = checked(Session::new()).await;
    editor.withhold(REFRESH);
    set(&mut editor, json!({"units": "in"})).await;
    let asked = editor.asked(REFRESH).await;
    tokio::time::pause();
    tokio::time::advance(Duration::from_secs(3600)).await;
    tokio::time::resume();
    editor.answer_late(asked).await;
    assert_eq!(editor.text(URI).await, "let grip = 11.4\n");
}

#[tokio::test]
async fn what_is_being_checked_while_the_settings_change_is_checked_by_the_new_ones() {
    let slow = Session::new().with_slow_analysis(Duration::from_millis(300));
    let mut editor = open(slow, json!({}), TWO_BENCHES).await;
    // Its first check is under way.
    editor.text(URI).await;
    set(&mut editor, json!({"bench": "shore"})).await;
    // A first check that was done already has found nothing.
    let found = loop {
        let found = editor.diagnostics(URI, 1).await;
        if let Some(found) = found.into_iter().next() {
            break found;
        }
    };
    assert_eq!(found["code"], "no-such-drill");
}
