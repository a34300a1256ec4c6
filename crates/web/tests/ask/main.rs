//! Questions put as the page puts them, and their answers.

mod refused;

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use quillet_fixture::EXAMPLES;
use quillet_web::Bench;
use serde_json::{Value, json};

fn ask(bench: &mut Bench, question: &Value) -> Value {
    let answer = bench.ask(&question.to_string());
    serde_json::from_str(&answer).expect("an answer is JSON")
}

/// A page that has all examples.
fn page() -> Bench {
    let mut bench = Bench::new();
    for (file, text) in EXAMPLES {
        let set = json!({"ask": "set", "file": file, "text": text});
        assert_eq!(ask(&mut bench, &set), Value::Null);
    }
    bench
}

fn text_of(file: &str) -> &'static str {
    let own = EXAMPLES.iter().find(|it| it.0 == file);
    own.expect("a shipped example").1
}

/// Where some words begin, as a browser counts.
fn unit(text: &str, words: &str) -> usize {
    let byte = text.find(words).expect("the words are there");
    text[..byte].encode_utf16().count()
}

/// The text with an edit's answer made in it.
fn made(text: &str, changes: &Value) -> String {
    let mut units: Vec<u16> = text.encode_utf16().collect();
    let mut all: Vec<&Value> = changes.as_array().expect("edits").iter().collect();
    all.sort_by_key(|it| std::cmp::Reverse(it["from"].as_u64()));
    for it in all {
        let at = |key: &str| it[key].as_u64().expect("a place") as usize;
        let new = it["text"].as_str().expect("a text").encode_utf16();
        units.splice(at("from")..at("to"), new);
    }
    String::from_utf16(&units).expect("a text")
}

#[test]
fn what_is_found_is_what_the_terminal_finds() {
    let texts = quillet_model::Texts::from_iter(EXAMPLES);
    let mut bench = page();
    let mut compared = 0;
    for (file, _) in EXAMPLES {
        let found = ask(&mut bench, &json!({"ask": "findings", "file": file}));
        let whole = quillet_pen::Analysis::of(file.as_ref(), &texts, None).expect("an example");
        let expected: Vec<Value> = whole
            .findings(&|| false)
            .expect("nobody calls it off")
            .iter()
            .map(|it| {
                let text = &whole.file(it.span.file).expect("a file").text;
                let units = |byte: u32| text[..byte as usize].encode_utf16().count();
                json!([
                    it.rule.code(),
                    it.severity.word(),
                    it.message.to_string(),
                    units(it.span.start),
                    units(it.span.end),
                    it.pens
                ])
            })
            .collect();
        let keys = ["rule", "severity", "message", "from", "to", "pens"];
        let found = found.as_array().expect("a list").iter();
        let found: Vec<Value> = found
            .map(|it| keys.map(|key| it[key].clone()).into())
            .collect();
        compared += found.len();
        assert_eq!(found, expected, "{file}");
    }
    assert!(compared >= 20, "Knot alone has more than {compared}");
}

#[test]
fn a_slip_is_found_cured_and_gone() {
    let mut bench = page();
    let heron = text_of("heron.quillet");
    let slip = heron.replace("onto barrel.mouth", "onto barel.mouth");
    let set = |text: &str| json!({"ask": "set", "file": "heron.quillet", "text": text});
    ask(&mut bench, &set(&slip));
    let findings = json!({"ask": "findings", "file": "heron.quillet"});
    let found = ask(&mut bench, &findings);
    let first = &found[0];
    assert_eq!(first["severity"], "error", "{found}");
    assert_eq!(first["from"], unit(&slip, "barel.mouth"), "{first}");
    let asked = json!({"ask": "actions", "file": "heron.quillet", "from": first["from"], "to": first["to"]});
    let actions = ask(&mut bench, &asked);
    let cure = &actions[0];
    assert_eq!(cure["kind"], "fix", "{actions}");
    let cured = made(&slip, &cure["edits"]["heron.quillet"]);
    ask(&mut bench, &set(&cured));
    let left = ask(&mut bench, &findings);
    assert!(left.as_array().expect("a list").len() < found.as_array().expect("a list").len());
}

#[test]
fn places_are_counted_in_units_past_signs_of_two() {
    let mut bench = page();
    let heron = format!("-- 🐦 ⌀\n{}", text_of("heron.quillet"));
    ask(
        &mut bench,
        &json!({"ask": "set", "file": "heron.quillet", "text": heron}),
    );
    let at = unit(&heron, "cap.mouth onto") + 1;
    let found = ask(
        &mut bench,
        &json!({"ask": "definition", "file": "heron.quillet", "at": at}),
    );
    assert_eq!(found["from"], unit(&heron, "cap from"), "{found}");
    let hover = ask(
        &mut bench,
        &json!({"ask": "hover", "file": "heron.quillet", "at": at}),
    );
    assert!(
        hover["text"].as_str().expect("a text").contains("cap"),
        "{hover}"
    );
}

#[test]
fn a_name_is_changed_everywhere_and_no_more() {
    let mut bench = page();
    let heron = text_of("heron.quillet");
    let at = unit(heron, "thread closing") + "thread ".len();
    let asked = json!({"ask": "rename", "file": "heron.quillet", "at": at, "to": "cap-thread"});
    let edits = ask(&mut bench, &asked);
    let new = made(heron, &edits["heron.quillet"]);
    assert!(!new.contains("closing"), "{new}");
    assert_eq!(edits.as_object().expect("by file").len(), 1);
    let taken = json!({"ask": "rename", "file": "heron.quillet", "at": at, "to": "9"});
    let error = ask(&mut bench, &taken);
    assert!(
        error["error"]
            .as_str()
            .expect("a sentence")
            .contains("is no name"),
        "{error}"
    );
}

#[test]
fn sheets_solids_and_drawings_are_files() {
    let mut bench = page();
    let mut bytes = |question: Value| {
        let made = ask(&mut bench, &question);
        let name = made["name"]
            .as_str()
            .unwrap_or_else(|| panic!("{made}"))
            .to_owned();
        let bytes = BASE64_STANDARD.decode(made["bytes"].as_str().expect("bytes"));
        (name, bytes.expect("base64"))
    };
    let heron = |ask: &str, form: &str| json!({"ask": ask, "file": "heron.quillet", "form": form, "pen": "heron-ida"});
    let (name, sheet) = bytes(heron("sheet", "pdf"));
    assert_eq!((&*name, &sheet[..5]), ("heron-ida.pdf", &b"%PDF-"[..]));
    for (form, begins) in [("step", &b"ISO-10303-21"[..]), ("3mf", &b"PK"[..])] {
        let (name, solid) = bytes(heron("solid", form));
        assert_eq!(
            (name, &solid[..begins.len()]),
            (format!("heron-ida.{form}"), begins)
        );
    }
    let part = json!({"ask": "solid", "file": "heron.quillet", "form": "stl", "part": "cap"});
    let (name, solid) = bytes(part);
    assert_eq!(name, "cap.stl");
    assert!(solid.len() > 1000);
    let drawn = json!({"ask": "draw", "file": "heron.quillet", "form": "svg", "part": "barrel"});
    let svg = String::from_utf8(bytes(drawn).1).expect("a text");
    assert!(svg.contains("<svg") && svg.contains("barrel"));
    assert!(bytes(heron("draw", "dxf")).1.len() > 1000);
}

#[test]
fn what_was_kept_is_compared_with_what_is_typed() {
    let mut bench = page();
    let heron = text_of("heron.quillet");
    let typed = heron.replace("grip = 11.4", "grip = 11.0");
    assert_ne!(heron, typed);
    ask(
        &mut bench,
        &json!({"ask": "set", "file": "heron.quillet", "text": typed}),
    );
    let old: serde_json::Map<String, Value> = EXAMPLES
        .iter()
        .map(|(file, text)| ((*file).to_owned(), json!(text)))
        .collect();
    let asked = json!({"ask": "compare", "file": "heron.quillet", "old": old});
    let compared = ask(&mut bench, &asked);
    let pens = compared["comparison"]["pens"].as_array().expect("pens");
    let state = |name: &str| {
        let own = pens.iter().find(|it| it["name"] == name);
        own.map(|it| it["state"].clone())
    };
    assert_eq!(state("heron"), Some(json!("changed")), "{compared}");
    assert!(
        compared["html"]
            .as_str()
            .expect("a page")
            .contains("</html>")
    );
}

#[test]
fn how_far_a_number_can_move_is_what_the_terminal_says() {
    let mut bench = page();
    let asked = json!({"ask": "room", "file": "heron.quillet", "of": ["cap.mouth.drill.to"]});
    let found = ask(&mut bench, &asked);
    let number = &found["numbers"][0];
    assert_eq!(number["below"]["rule"], "nib-strikes-cap", "{found}");
    let none = json!({"ask": "room", "file": "heron.quillet", "of": ["cap.nothing"]});
    assert!(ask(&mut bench, &none)["error"].is_string());
}

#[test]
fn every_question_about_a_text_is_answered() {
    let mut bench = page();
    let heron = text_of("heron.quillet");
    let at = unit(heron, "drill 12.2");
    for (asked, holds) in [("complete", "choices"), ("preview", "pictures")] {
        let found = ask(
            &mut bench,
            &json!({"ask": asked, "file": "heron.quillet", "at": at}),
        );
        assert!(!found[holds].is_null(), "{asked}: {found}");
    }
    // How a statement is written is said while it is.
    let half = heron.replacen("to 54", "", 1);
    let signature = json!({"ask": "signature", "file": "heron.quillet", "at": at + 11});
    for (text, said) in [(half.as_str(), true), (heron, false)] {
        let set = json!({"ask": "set", "file": "heron.quillet", "text": text});
        ask(&mut bench, &set);
        let found = ask(&mut bench, &signature);
        assert_eq!(found["form"].is_string(), said, "{found}");
    }
    for asked in ["inlays", "tokens", "folds", "symbols"] {
        let found = ask(&mut bench, &json!({"ask": asked, "file": "heron.quillet"}));
        assert!(!found.as_array().expect("a list").is_empty(), "{asked}");
    }
    let loose = heron.replace("  length", "length     ");
    ask(
        &mut bench,
        &json!({"ask": "set", "file": "heron.quillet", "text": loose}),
    );
    let edits = ask(
        &mut bench,
        &json!({"ask": "format", "file": "heron.quillet"}),
    );
    assert_eq!(made(&loose, &edits["heron.quillet"]), heron);
    let page = ask(&mut bench, &json!({"ask": "explain", "rule": "thin-wall"}));
    assert!(page.as_str().expect("a page").contains("wall"));
}
