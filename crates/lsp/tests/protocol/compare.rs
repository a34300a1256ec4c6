//! A document beside what git keeps of it: `quillet/compare`, the lenses, the edits of a merge.

use crate::editor::{Editor, uri};
use quillet_fixture::{EXAMPLES, Scratch};
use serde_json::{Value, json};
use std::path::Path;

fn repository() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let scratch = Scratch::init(folder.path());
    for (name, text) in EXAMPLES {
        scratch.write(name, text);
    }
    scratch.commit("the pens of this bench");
    folder
}

fn heron() -> &'static str {
    EXAMPLES
        .iter()
        .find(|it| it.0 == "heron.quillet")
        .unwrap()
        .1
}

async fn opened(folder: &Path, text: &str) -> (Editor, String) {
    let mut editor = Editor::start_with(json!({}), Some(folder)).await;
    let uri = uri(&folder.join("heron.quillet"));
    editor.open(&uri, text).await;
    (editor, uri)
}

async fn titles(editor: &mut Editor, uri: &str) -> Vec<String> {
    let lenses = editor
        .ask(
            "textDocument/codeLens",
            json!({"textDocument": {"uri": uri}}),
        )
        .await;
    let all = lenses.as_array().unwrap().iter();
    all.map(|it| it["command"]["title"].as_str().unwrap().to_owned())
        .collect()
}

#[tokio::test]
async fn what_is_typed_is_compared_with_what_was_committed() {
    let folder = repository();
    let text = heron().replace("let grip = 11.4", "let grip = 11.0");
    let (mut editor, uri) = opened(folder.path(), &text).await;
    let document = json!({"textDocument": {"uri": uri}, "revision": "HEAD"});
    let told = editor.ask("quillet/compare", document).await;
    let markdown = told["markdown"].as_str().unwrap();
    assert!(
        markdown.contains("most -0.40 mm at 22.0; grown 0.19 mm at 17.3"),
        "{markdown}"
    );
    assert!(
        told["html"]
            .as_str()
            .unwrap()
            .contains("section of heron, old under new")
    );
    let report: Value = serde_json::from_str(told["json"].as_str().unwrap()).unwrap();
    assert_eq!(report["pens"][0]["state"], "changed");
    let titles = titles(&mut editor, &uri).await;
    assert!(
        titles.contains(&"since HEAD: +0.01 g".to_owned()),
        "{titles:?}"
    );
    assert!(titles.contains(&"⌀ -0.40 at 22".to_owned()), "{titles:?}");
}

#[tokio::test]
async fn without_a_change_a_repository_or_a_wish_no_lens_tells_of_it() {
    let folder = repository();
    let (mut editor, uri) = opened(folder.path(), heron()).await;
    let quiet = |titles: &[String]| titles.iter().all(|it| !it.contains("since"));
    assert!(quiet(&titles(&mut editor, &uri).await));
    let unknown = editor
        .request(
            "quillet/compare",
            json!({"textDocument": {"uri": uri}, "revision": "nobody"}),
        )
        .await;
    let answer = editor.answer(unknown).await;
    let why = answer["error"]["message"].as_str().unwrap();
    assert!(
        why.contains("there is no revision \"nobody\" here"),
        "{why}"
    );
    let bare = tempfile::tempdir().unwrap();
    for (name, text) in EXAMPLES {
        std::fs::write(bare.path().join(name), text).unwrap();
    }
    let text = heron().replace("let grip = 11.4", "let grip = 11.0");
    let (mut editor, uri) = opened(bare.path(), &text).await;
    assert!(quiet(&titles(&mut editor, &uri).await));
}

/// With what git keeps out of reach, only what is known already can answer.
#[tokio::test]
async fn git_is_asked_once_and_again_when_something_was_committed() {
    let folder = repository();
    let text = heron().replace("let grip = 11.4", "let grip = 11.0");
    let refreshes = json!({"workspace": {"codeLens": {"refreshSupport": true}}});
    let mut editor = Editor::start_with(refreshes, Some(folder.path())).await;
    let uri = uri(&folder.path().join("heron.quillet"));
    editor.open(&uri, &text).await;
    let first = titles(&mut editor, &uri).await;
    let since = "since HEAD: +0.01 g".to_owned();
    assert!(first.contains(&since), "{first:?}");
    let git = folder.path().join(".git");
    let [objects, away] = ["objects", "away"].map(|it| git.join(it));
    std::fs::rename(&objects, &away).unwrap();
    assert_eq!(titles(&mut editor, &uri).await, first);
    let thinner = heron().replace("let grip = 11.4", "let grip = 10.6");
    editor.change(&uri, 2, json!([{"text": thinner}])).await;
    let next = titles(&mut editor, &uri).await;
    assert!(next.contains(&"⌀ -0.80 at 22".to_owned()), "{next:?}");
    std::fs::rename(&away, &objects).unwrap();
    // Committed elsewhere: seen at the next asking, and told to the editor at the next save.
    let scratch = Scratch {
        folder: folder.path(),
    };
    scratch.write("heron.quillet", &thinner);
    scratch.commit("a thinner grip");
    editor.everything().await;
    let saved = json!({"textDocument": {"uri": uri}});
    editor.notify("textDocument/didSave", saved).await;
    editor.heard("workspace/codeLens/refresh").await;
    let quiet = titles(&mut editor, &uri).await;
    assert!(quiet.iter().all(|it| !it.contains("since")), "{quiet:?}");
    editor.change(&uri, 3, json!([{"text": text}])).await;
    let last = titles(&mut editor, &uri).await;
    assert!(last.contains(&"⌀ +0.40 at 22".to_owned()), "{last:?}");
}

#[tokio::test]
async fn why_there_is_no_comparison_stands_in_the_log_once() {
    let folder = repository();
    let new = folder.path().join("new.quillet");
    let bare = tempfile::tempdir().unwrap();
    for (file, why) in [
        (new, "is not in it"),
        (bare.path().join("heron.quillet"), "is in no git repository"),
    ] {
        let mut editor = Editor::start_with(json!({}), file.parent()).await;
        let uri = uri(&file);
        editor.open(&uri, heron()).await;
        for _ in 0..3 {
            titles(&mut editor, &uri).await;
        }
        let heard = editor.everything().await;
        let lines = heard
            .iter()
            .filter(|it| it["method"] == "window/logMessage");
        let lines: Vec<_> = lines
            .map(|it| it["params"]["message"].as_str().unwrap())
            .collect();
        assert_eq!(lines.len(), 1, "{lines:?}");
        assert!(
            lines[0].starts_with("not compared with HEAD: "),
            "{lines:?}"
        );
        assert!(lines[0].contains(why), "{lines:?}");
    }
}

#[tokio::test]
async fn an_unfinished_merge_offers_either_version() {
    let folder = repository();
    let both = "<<<<<<< ours\nlet grip = 11.0\n=======\nlet grip = 11.2\n>>>>>>> theirs";
    let text = heron().replace("let grip = 11.4", both);
    let (mut editor, uri) = opened(folder.path(), &text).await;
    let line = text
        .lines()
        .position(|it| it.starts_with("<<<<<<<"))
        .unwrap();
    let here = json!({"line": line, "character": 2});
    let asked = json!({"textDocument": {"uri": uri}, "range": {"start": here, "end": here},
        "context": {"diagnostics": []}});
    let actions = editor.ask("textDocument/codeAction", asked).await;
    let fixes = actions
        .as_array()
        .unwrap()
        .iter()
        .filter(|it| it["kind"] == "quickfix");
    let titles: Vec<&str> = fixes.map(|it| it["title"].as_str().unwrap()).collect();
    assert_eq!(titles, ["keep ours", "keep theirs"]);
}
