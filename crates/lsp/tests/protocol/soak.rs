//! Long random sessions over all examples: the text never drifts, what is shown is what a fresh
//! check finds, nothing fails, memory stays flat.
//!
//! `QUILLET_SOAK` sets the number of edits; the default runs in a few seconds.

use crate::dice::Dice;
use crate::editor::{Editor, uri};
use quillet_syntax::{Encoding, LineIndex, Position};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// What is typed: words, signs and characters that are awkward to count.
const TYPED: [&str; 28] = [
    "",
    "",
    "",
    "x",
    "7",
    "0.5",
    ".",
    " ",
    "\n",
    "\r\n",
    "{",
    "}",
    "(",
    ")",
    "\"",
    "--",
    "⌀",
    "🖊",
    "°é",
    "drill 8 to 12\n",
    "thread joint inside to 9",
    "use \"bought.quillet\"\n",
    "let a = 1\n",
    " like heron",
    "cap.mouth",
    "7/16in",
    "\t",
    ";",
];

fn edits() -> usize {
    let written = std::env::var("QUILLET_SOAK").ok();
    written
        .and_then(|written| written.parse().ok())
        .unwrap_or(600)
}

fn examples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let folder = folder.canonicalize().expect("the examples");
    let entries = std::fs::read_dir(folder).expect("the examples").flatten();
    let mut found: Vec<_> = entries.map(|entry| entry.path()).collect();
    found.retain(|path| path.extension().is_some_and(|ending| ending == "quillet"));
    found.sort();
    found
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_long_session_of_random_edits_drifts_nowhere() {
    let mut editor = Editor::start().await;
    at_once(&mut editor).await;
    let mut dice = Dice::new(0x853c_49e6_748f_ea9b);
    let examples = examples();
    let each = edits() / examples.len();
    let mut after_warm_up = None;
    for path in &examples {
        let uri = uri(path);
        let original = std::fs::read_to_string(path).expect("an example");
        let mut model = original.clone();
        editor.open(&uri, &model).await;
        for version in 2..each as i64 + 2 {
            // A text that has become rubble says little; from time to time it is put right.
            if dice.throw(60) == 0 {
                model = original.clone();
                editor.change(&uri, version, json!([{"text": model}])).await;
            } else {
                let change = edit(&mut model, &mut dice);
                editor.change(&uri, version, json!([change])).await;
            }
            if dice.throw(50) == 0 {
                assert_eq!(editor.text(&uri).await, model);
                let shown = editor.diagnostics(&uri, version).await;
                assert_eq!(places(&shown), fresh(path, &model), "{path:?} {model}");
            }
        }
        assert_eq!(editor.text(&uri).await, model);
        editor.diagnostics(&uri, each as i64 + 1).await;
        editor.forget_heard();
        editor
            .notify(
                "textDocument/didClose",
                json!({"textDocument": {"uri": uri}}),
            )
            .await;
        let now = memory_mb();
        match (after_warm_up, now) {
            (None, Some(now)) => after_warm_up = Some(now),
            (Some(before), Some(now)) => assert!(now < before + 48.0, "{before} MB, then {now} MB"),
            _ => {}
        }
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn random_questions_at_random_places_never_fail_inside() {
    let mut editor = Editor::start().await;
    at_once(&mut editor).await;
    let methods = questions(&editor.capabilities);
    assert!(methods.len() > 20, "{methods:?}");
    let mut dice = Dice::new(0xda3e_39cb_94b9_5bdb);
    let examples = examples();
    let each = edits() / examples.len() / 2;
    for path in &examples {
        let uri = uri(path);
        let mut model = std::fs::read_to_string(path).expect("an example");
        editor.open(&uri, &model).await;
        let mut asked = Vec::new();
        for version in 2..each as i64 + 2 {
            let change = edit(&mut model, &mut dice);
            editor.change(&uri, version, json!([change])).await;
            let (method, params) = question(&methods, &uri, &model, &mut dice);
            asked.push((
                editor.request(&method, params.clone()).await,
                method,
                params,
            ));
            if asked.len() > 20 {
                settle(&mut editor, &mut asked).await;
            }
        }
        settle(&mut editor, &mut asked).await;
        editor.forget_heard();
        editor
            .notify(
                "textDocument/didClose",
                json!({"textDocument": {"uri": uri}}),
            )
            .await;
    }
}

/// Waits for all answers; an error must be one that is meant.
async fn settle(editor: &mut Editor, asked: &mut Vec<(i64, String, Value)>) {
    for (id, method, params) in asked.drain(..) {
        let answer = editor.answer(id).await;
        // Invalid place, or a name that is refused.
        let meant = [-32602, -32803];
        let code = answer["error"]["code"].as_i64();
        assert!(
            code.is_none_or(|code| meant.contains(&code)),
            "{method} {params}: {answer}"
        );
    }
}

/// The questions about a place of a text that the server says it answers, so that a new one is asked too.
fn questions(capabilities: &Value) -> Vec<String> {
    let offered = capabilities.as_object().expect("an object").iter();
    let offered = offered.filter(|(_, it)| !it.is_null() && **it != json!(false));
    let names = offered.filter_map(|(key, _)| key.strip_suffix("Provider"));
    let mut methods: Vec<String> = names.flat_map(about_a_place).collect();
    methods.push("quillet/preview".to_owned());
    methods
}

/// The methods of what a capability calls so; none of what is asked of no place.
fn about_a_place(name: &str) -> Vec<String> {
    let methods: &[&str] = match name {
        "workspaceSymbol" | "executeCommand" | "diagnostic" => &[],
        "documentFormatting" => &["formatting"],
        "documentRangeFormatting" => &["rangeFormatting"],
        "documentOnTypeFormatting" => &["onTypeFormatting"],
        "semanticTokens" => &["semanticTokens/full", "semanticTokens/range"],
        "rename" => &["rename", "prepareRename"],
        "callHierarchy" => &["prepareCallHierarchy"],
        _ => &[name],
    };
    methods
        .iter()
        .map(|it| format!("textDocument/{it}"))
        .collect()
}

fn question(methods: &[String], uri: &str, text: &str, dice: &mut Dice) -> (String, Value) {
    let lines = LineIndex::new(text);
    let mut place = || {
        let line = dice.throw(lines.line_count() as usize + 2);
        json!({"line": line, "character": dice.throw(60)})
    };
    let (position, other) = (place(), place());
    let ordered = position["line"].as_i64() <= other["line"].as_i64();
    let (start, end) = if ordered {
        (&position, &other)
    } else {
        (&other, &position)
    };
    let method = methods[dice.throw(methods.len())].clone();
    let params = json!({
        "textDocument": {"uri": uri},
        "position": position,
        "positions": [position],
        "range": {"start": start, "end": end},
        "newName": "other-name",
        "ch": "\n",
        "context": {"includeDeclaration": true, "diagnostics": []},
        "options": {"tabSize": 2, "insertSpaces": true},
    });
    (method, params)
}

/// Changes the model at random and gives the same change as an editor would tell it.
fn edit(model: &mut String, dice: &mut Dice) -> Value {
    let boundary = |mut at: usize| {
        while !model.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let from = boundary(dice.throw(model.len() + 1));
    let to = boundary((from + dice.throw(7)).min(model.len())).max(from);
    let lines = LineIndex::new(model.as_str());
    let place = |offset| {
        let Position { line, column } = lines.position(offset, Encoding::Utf16);
        json!({"line": line, "character": column})
    };
    // Between `\r` and `\n` there is no place an editor could name.
    let inside = |at: usize| model[..at].ends_with('\r') && model[at..].starts_with('\n');
    let (from, to) = (
        from - usize::from(inside(from)),
        to + usize::from(inside(to)),
    );
    let range = json!({"start": place(from), "end": place(to)});
    let new = TYPED[dice.throw(TYPED.len())];
    model.replace_range(from..to, new);
    json!({"range": range, "text": new})
}

/// What a check of its own finds in a text, by rule and place.
fn fresh(path: &Path, text: &str) -> Vec<(String, u64, u64)> {
    let mut workspace = quillet_ide::Workspace::default();
    workspace.set(path, text.into());
    let analysis = workspace
        .snapshot()
        .analysis(path, &|| false)
        .expect("it is open");
    let findings = analysis.findings(&|| false).expect("nobody calls it off");
    let root = analysis.design.root().expect("it is open").id;
    let lines = LineIndex::new(text);
    let own = findings
        .iter()
        .filter(|finding| finding.span.file == root)
        .map(|finding| {
            let place = lines.position(finding.span.start as usize, Encoding::Utf16);
            (
                finding.rule.to_string(),
                u64::from(place.line),
                u64::from(place.column),
            )
        });
    let mut places: Vec<_> = own.collect();
    places.sort();
    places.dedup();
    places
}

fn places(shown: &[Value]) -> Vec<(String, u64, u64)> {
    let place = |found: &Value| {
        let start = &found["range"]["start"];
        let rule = found["code"].as_str().unwrap_or_default().to_owned();
        (
            rule,
            start["line"].as_u64().unwrap_or(0),
            start["character"].as_u64().unwrap_or(0),
        )
    };
    let mut places: Vec<_> = shown.iter().map(place).collect();
    places.sort();
    places.dedup();
    places
}

/// Resident memory; none where the system does not tell.
fn memory_mb() -> Option<f64> {
    let reported = std::fs::read_to_string("/proc/self/statm").ok()?;
    let pages: f64 = reported.split_whitespace().nth(1)?.parse().ok()?;
    Some(pages * 4096.0 / 1e6)
}

/// Slips on the line that is typed on are pushed at once too.
async fn at_once(editor: &mut Editor) {
    let settings = json!({"settings": {"syntaxDelay": 0}});
    editor
        .notify("workspace/didChangeConfiguration", settings)
        .await;
}
