//! What cannot be answered is a sentence, or is found.

use super::{ask, page};
use serde_json::{Value, json};

#[test]
fn what_cannot_be_answered_is_a_sentence() {
    let mut bench = page();
    let mut error = |question: &str| {
        let answer: Value = serde_json::from_str(&bench.ask(question)).expect("JSON");
        answer["error"]
            .as_str()
            .unwrap_or_else(|| panic!("{question}: {answer}"))
            .to_owned()
    };
    for bad in [
        "",
        "null",
        "[]",
        "{}",
        r#"{"ask": "dance"}"#,
        r#"{"ask": "hover"}"#,
    ] {
        assert!(error(bad).contains("cannot be read"), "{bad}");
    }
    for name in [
        "../etc.quillet",
        "a/b.quillet",
        ".quillet",
        "<b>.quillet",
        "heron.txt",
        "-x.quillet",
    ] {
        let set = json!({"ask": "set", "file": name, "text": ""}).to_string();
        assert!(error(&set).contains("is no name"), "{name}");
    }
    let gone = json!({"ask": "findings", "file": "tern.quillet"}).to_string();
    assert!(error(&gone).contains("no file called tern.quillet"));
    let form = json!({"ask": "solid", "file": "heron.quillet", "form": "obj"}).to_string();
    assert!(error(&form).contains("step, stl or 3mf"));
    let knot = json!({"ask": "sheet", "file": "knot.quillet"}).to_string();
    assert!(error(&knot).contains("gets no sheet"));
}

#[test]
fn a_file_that_goes_is_missed() {
    let mut bench = page();
    ask(
        &mut bench,
        &json!({"ask": "drop", "file": "saltings.quillet"}),
    );
    let found = ask(
        &mut bench,
        &json!({"ask": "findings", "file": "heron.quillet"}),
    );
    assert_eq!(found[0]["rule"], "missing-file", "{found}");
}
