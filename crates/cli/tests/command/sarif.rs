//! `check --format sarif` and `--baseline`: what other programs read, and what is new.

use crate::run::{ended, examples, json, repository, run, stderr, stdout};
use quillet_fixture::Scratch;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::tempdir;

/// The schema of OASIS, as the crate `serde-sarif` carries it.
pub(crate) fn schema() -> Value {
    let asked = |program: &str, words: &[&str]| {
        let mut command = Command::new(program);
        let folder = env!("CARGO_MANIFEST_DIR");
        command.args(words).current_dir(folder).output().unwrap()
    };
    // What other machines would need besides may not be here.
    let about = asked("rustc", &["-vV"]);
    let about = String::from_utf8(about.stdout).unwrap();
    let host = about
        .lines()
        .find_map(|it| it.strip_prefix("host: "))
        .unwrap();
    let words = [
        "metadata",
        "--format-version=1",
        "--offline",
        "--filter-platform",
        host,
    ];
    let asked = asked(env!("CARGO"), &words);
    let metadata: Value = serde_json::from_slice(&asked.stdout).unwrap();
    let mut packages = metadata["packages"].as_array().unwrap().iter();
    let package = packages.find(|it| it["name"] == "serde-sarif").unwrap();
    let manifest = PathBuf::from(package["manifest_path"].as_str().unwrap());
    let schema = manifest.parent().unwrap().join("src/schema.json");
    let mut schema: Value = serde_json::from_str(&fs::read_to_string(schema).unwrap()).unwrap();
    // One pattern, of a key that is not written, is no regular expression with Unicode.
    for of in ["run", "toolComponent"] {
        let language = &mut schema["definitions"][of]["properties"]["language"];
        language.as_object_mut().unwrap().remove("pattern").unwrap();
    }
    schema
}

fn results(log: &Value) -> &Vec<Value> {
    log["runs"][0]["results"].as_array().unwrap()
}

fn place(result: &Value) -> &str {
    result["partialFingerprints"]["quilletPlace/v1"]
        .as_str()
        .unwrap()
}

#[test]
fn it_is_what_the_standard_says_and_another_reader_reads_it() {
    let folder = repository("");
    let output = run(folder.path(), &["check", "--format", "sarif", "."]);
    assert_eq!(output.status.code(), Some(1), "{}", stderr(&output));
    let log = json(&output);
    let validator = jsonschema::validator_for(&schema()).unwrap();
    let wrong: Vec<String> = validator
        .iter_errors(&log)
        .map(|it| it.to_string())
        .collect();
    assert_eq!(wrong, Vec::<String>::new());
    let read: serde_sarif::sarif::Sarif = serde_json::from_slice(&output.stdout).unwrap();
    let read = read.runs[0].results.as_ref().unwrap();
    assert_eq!(read.len(), results(&log).len());
    let rules = log["runs"][0]["tool"]["driver"]["rules"]
        .as_array()
        .unwrap();
    for result in results(&log) {
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(rules[index]["id"], result["ruleId"]);
    }
    assert!(
        !stdout(&output).contains(&*folder.path().to_string_lossy()),
        "no absolute path"
    );
}

#[test]
fn it_holds_what_the_json_holds_each_in_a_place_of_its_own() {
    let asked = |format: &str| {
        json(&run(
            &examples(),
            &["check", "--format", format, "knot.quillet"],
        ))
    };
    let (log, report) = (asked("sarif"), asked("json"));
    let counted = results(&log)
        .iter()
        .filter(|it| it["suppressions"].is_null());
    let findings = report["findings"].as_array().unwrap();
    assert_eq!(counted.clone().count(), findings.len());
    let places: BTreeSet<&str> = counted.clone().map(place).collect();
    assert_eq!(places.len(), findings.len());
    for (result, finding) in counted.zip(findings) {
        let region = &result["locations"][0]["physicalLocation"]["region"];
        assert_eq!(region["startLine"], finding["start"]["line"]);
        assert_eq!(region["startColumn"], finding["start"]["column"]);
        assert_eq!(region["endColumn"], finding["end"]["column"]);
    }
}

#[test]
fn columns_count_characters_and_paths_are_encoded() {
    let folder = tempdir().unwrap();
    let name = "Säbelschnäbler & Co.quillet";
    // Behind two letters of two bytes each.
    fs::write(
        folder.path().join(name),
        "part cap from a to b { note \"öö\"; lenght 5 }\n",
    )
    .unwrap();
    let log = json(&run(folder.path(), &["check", "--format", "sarif", name]));
    let found = results(&log)
        .iter()
        .map(|it| &it["locations"][0]["physicalLocation"]);
    let found: Vec<_> = found.collect();
    let text = fs::read_to_string(folder.path().join(name)).unwrap();
    let column = text.split("lenght").next().unwrap().chars().count() + 1;
    assert!(
        found.iter().any(|it| it["region"]["startColumn"] == column),
        "{found:?}"
    );
    let uri = "S%C3%A4belschn%C3%A4bler%20%26%20Co.quillet";
    assert_eq!(found[0]["artifactLocation"]["uri"], uri);
}

#[test]
fn what_is_accepted_is_suppressed_with_its_reason() {
    let log = json(&run(
        &examples(),
        &["check", "--format", "sarif", "heron.quillet"],
    ));
    let suppressed: Vec<_> = results(&log)
        .iter()
        .map(|it| &it["suppressions"][0])
        .collect();
    assert!(!suppressed.is_empty());
    for suppression in suppressed {
        assert_eq!(suppression["kind"], "inSource");
        assert_eq!(suppression["status"], "accepted");
        assert!(!suppression["justification"].as_str().unwrap().is_empty());
    }
}

/// A change that brings one finding more, in every way a baseline can be given.
#[test]
fn only_what_is_new_ends_with_1() {
    let folder = repository("");
    let check = |words: &[&str]| {
        let output = run(folder.path(), &[&["check"], words].concat());
        (
            output.status.code().unwrap(),
            stdout(&output),
            stderr(&output),
        )
    };
    let known = check(&["--baseline", "HEAD", "."]);
    assert_eq!(known.0, 0, "{}", known.2);
    assert!(known.1.contains("nothing new; 24 known"), "{}", known.1);
    let before = run(folder.path(), &["check", "--format", "sarif", "."]);
    fs::write(folder.path().join("before.sarif"), before.stdout).unwrap();

    let path = folder.path().join("bought.quillet");
    let text = fs::read_to_string(&path).unwrap();
    let thicker = thicker_converter(&text);
    fs::write(&path, thicker).unwrap();
    for baseline in ["HEAD", "before.sarif"] {
        let (code, out, _) = check(&[
            "--brief",
            "--baseline",
            baseline,
            "heron.quillet",
            "knot.quillet",
        ]);
        assert_eq!(code, 1, "{baseline}: {out}");
        assert!(out.contains("[wont-pass]"), "{baseline}: {out}");
        assert!(out.contains(" known"), "{baseline}: {out}");
        assert!(!out.contains("[mouth-splits]"), "{baseline}: {out}");
    }
    let scratch = Scratch {
        folder: folder.path(),
    };
    scratch.git(&["add", "bought.quillet"]);
    fs::write(&path, &text).unwrap();
    let staged = check(&[
        "--brief",
        "--at",
        "index",
        "--baseline",
        "HEAD",
        "heron.quillet",
    ]);
    assert_eq!(staged.0, 1, "{}", staged.1);
    assert_eq!(check(&["--baseline", "HEAD", "heron.quillet"]).0, 0);
    scratch.git(&["commit", "--quiet", "-m", "a thicker converter"]);
    assert_eq!(
        check(&["--at", "HEAD", "--baseline", "HEAD", "heron.quillet"]).0,
        0
    );
}

/// The bought parts with a converter too thick for Heron's section.
fn thicker_converter(text: &str) -> String {
    let start = text.find("bought converter").unwrap();
    let dia = start + text[start..].find("dia ").unwrap() + 4;
    let end = dia
        + text[dia..]
            .find(|it: char| !it.is_ascii_digit() && it != '.')
            .unwrap();
    format!("{}12.9{}", &text[..dia], &text[end..])
}

#[test]
fn a_baseline_that_cannot_be_had_is_a_sentence() {
    let folder = repository("");
    let check = |baseline: &str| {
        let output = ended(&run(
            folder.path(),
            &["check", "--baseline", baseline, "heron.quillet"],
        ));
        assert_eq!((output.0, output.1.as_str()), (Some(2), ""), "{baseline}");
        output.2
    };
    assert!(check("nobody").contains("there is no revision \"nobody\" here"));
    assert!(check("gone.sarif").contains("gone.sarif: there is no such file"));
    fs::write(folder.path().join("odd.sarif"), "{}").unwrap();
    assert!(check("odd.sarif").contains("it is no SARIF"));
    let foreign = r#"{"runs":[{"results":[{"message":{"text":"x"}}]}]}"#;
    fs::write(folder.path().join("other.sarif"), foreign).unwrap();
    assert!(check("other.sarif").contains("a result has no quilletPlace/v1"));
    assert!(check(&Path::new("gone").join("x.sarif").to_string_lossy()).contains("no such file"));
}
