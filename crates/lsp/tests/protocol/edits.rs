//! Edits as an editor asks for them: a kind of their own for what cannot change the pen, and sizes in
//! the unit of the file they go into.

use crate::editor::Editor;
use serde_json::{Value, json};

const URI: &str = "untitled:pen";

/// What is offered over all of a text of so many lines.
async fn offered(editor: &mut Editor, text: &str, only: Option<&str>) -> Vec<Value> {
    let last = text.matches('\n').count();
    let all = json!({
        "start": {"line": 0, "character": 0},
        "end": {"line": last, "character": 0}
    });
    let context = match only {
        Some(kind) => json!({"diagnostics": [], "only": [kind]}),
        None => json!({"diagnostics": []}),
    };
    let asked = json!({"textDocument": {"uri": URI}, "range": all, "context": context});
    let answer = editor.ask("textDocument/codeAction", asked).await;
    answer.as_array().cloned().unwrap_or_default()
}

/// The edits of an action, each with the text that it takes the place of, last first.
fn edits<'t>(action: &'t Value, text: &'t str) -> Vec<(usize, &'t str, &'t str)> {
    let offset = |place: &Value| {
        let (line, column) = (place["line"].as_u64(), place["character"].as_u64());
        let before = text.split_inclusive('\n').take(line.unwrap() as usize);
        before.map(str::len).sum::<usize>() + column.unwrap() as usize
    };
    let all = action["edit"]["changes"][URI].as_array();
    let mut found: Vec<_> = all
        .unwrap_or_else(|| panic!("no edits: {action}"))
        .iter()
        .map(|edit| {
            let (from, to) = (
                offset(&edit["range"]["start"]),
                offset(&edit["range"]["end"]),
            );
            (from, &text[from..to], edit["newText"].as_str().unwrap())
        })
        .collect();
    found.sort_by_key(|(from, ..)| std::cmp::Reverse(*from));
    found
}

fn applied(action: &Value, text: &str) -> String {
    let mut new = text.to_owned();
    for (from, old, by) in edits(action, text) {
        new.replace_range(from..from + old.len(), by);
    }
    new
}

/// A decimal comma, words misspelt, and behind the first of them one that only comes to light when it
/// is put right.
const MISSPELT: &str = "\
prt barrel from mouth to tail {
  blank of acrylic rod 18
  lenght 40
  outside dia 14,5
  from mouth {
    dril 9 to 15
  }
}
";

#[tokio::test]
async fn what_cannot_change_the_pen_is_mended_in_one_pass_and_never_as_fix_all() {
    let mut editor = Editor::start().await;
    editor.open(URI, MISSPELT).await;
    let kinds = &editor.capabilities["codeActionProvider"]["codeActionKinds"];
    assert!(
        kinds
            .as_array()
            .is_some_and(|all| all.contains(&json!("source.mend.quillet")))
    );
    for kind in ["source.fixAll", "source.fixAll.quillet"] {
        assert_eq!(
            offered(&mut editor, MISSPELT, Some(kind)).await,
            [] as [Value; 0]
        );
    }
    let mend = offered(&mut editor, MISSPELT, Some("source.mend.quillet")).await;
    let [mend] = mend.as_slice() else {
        panic!("not one: {mend:?}");
    };
    assert_eq!(mend["kind"], "source.mend.quillet");
    let mended = applied(mend, MISSPELT);
    let right = MISSPELT
        .replace("prt", "part")
        .replace("lenght", "length")
        .replace("14,5", "14.5")
        .replace("dril ", "drill ");
    assert_eq!(mended, right);
    editor.change(URI, 2, json!([{"text": mended}])).await;
    let again = offered(&mut editor, &mended, Some("source.mend.quillet")).await;
    assert_eq!(again, [] as [Value; 0], "a second pass has nothing to do");
}

/// 0.025 in, 0.64 mm, of wall where acrylic wants more.
const IN_INCHES: &str = "\
dimensions in inches
part barrel from mouth to tail {
  blank of acrylic rod 3/4
  length 1.5
  outside dia 0.55
  from mouth {
    bore 0.5 to 1
  }
}
";

#[tokio::test]
async fn edits_of_a_file_in_inches_come_in_inches() {
    let mut editor = Editor::start().await;
    editor.open(URI, IN_INCHES).await;
    let found = editor.diagnostics(URI, 1).await;
    let thin = |found: &[Value]| found.iter().any(|it| it["code"] == "thin-wall");
    assert!(thin(&found), "{found:?}");
    let cures = offered(&mut editor, IN_INCHES, Some("quickfix")).await;
    let of_wall = |it: &&Value| it["diagnostics"][0]["code"] == "thin-wall";
    let cures: Vec<&Value> = cures
        .iter()
        .filter(of_wall)
        .filter(|it| !it["title"].as_str().unwrap().starts_with("accept"))
        .collect();
    assert!(
        cures.len() > 1,
        "a smaller bore, a larger outside: {cures:?}"
    );
    for (version, cure) in (2..).zip(cures) {
        for (_, old, new) in edits(cure, IN_INCHES) {
            let size = |text: &str| {
                let number = text.parse::<f64>();
                number.unwrap_or_else(|_| panic!("no size {text:?}: {cure}"))
            };
            let times = size(new) / size(old);
            // A size in millimetres would be 25.4 times as large.
            assert!((0.8..1.25).contains(&times), "{old} to {new}");
        }
        let cured = applied(cure, IN_INCHES);
        editor.change(URI, version, json!([{"text": cured}])).await;
        let found = editor.diagnostics(URI, version).await;
        assert!(!thin(&found), "{cured}{found:?}");
    }
}
