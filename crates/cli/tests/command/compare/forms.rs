//! `quillet compare` in every form: text, JSON, SARIF, Markdown and a page.

use super::{change, told};
use crate::run::{json, repository, run};
use crate::sarif::schema;
use quillet_fixture::Scratch;
use std::fs;

#[test]
fn every_form_compares_the_same() {
    let folder = repository("");
    let scratch = Scratch {
        folder: folder.path(),
    };
    let old = folder.path().join("old");
    fs::create_dir(&old).unwrap();
    for (name, text) in quillet_fixture::EXAMPLES {
        fs::write(old.join(name), text).unwrap();
    }
    fs::write(folder.path().join(".git/info/exclude"), "old/\n").unwrap();
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    let wanted = "most -0.40 mm at 22.0; grown 0.19 mm at 17.3";
    let forms: [&[&str]; 4] = [
        &["HEAD:heron.quillet", "heron.quillet"],
        &["HEAD:heron.quillet"],
        &["old/heron.quillet", "heron.quillet"],
        &["HEAD", "--", "heron.quillet"],
    ];
    for form in forms {
        let text = told(&folder, form);
        assert!(text.contains(wanted), "{form:?}: {text}");
        assert!(!text.contains("knot"), "{form:?}: {text}");
    }
    let two = told(
        &folder,
        &["heron.quillet", "--pen", "heron", "--with", "heron-ida"],
    );
    assert!(two.starts_with("heron: the same as heron-ida"), "{two}");
    scratch.commit("a thinner grip");
    assert!(told(&folder, &["HEAD~1", "HEAD"]).contains(wanted));
    assert!(told(&folder, &["HEAD~1"]).contains(wanted));
    assert_eq!(told(&folder, &["HEAD", "index"]), "every pen: the same\n");
    let back = told(&folder, &["HEAD", "HEAD~1", "--pen", "heron"]);
    assert!(
        back.contains("most +0.40 mm at 22.0; shrunk 0.19 mm at 17.3"),
        "{back}"
    );
}

#[test]
fn its_sarif_is_what_the_standard_says_and_tells_what_has_become_of_each() {
    let folder = repository("");
    change(
        folder.path(),
        "saltings.quillet",
        "M9x0.75 lead 2",
        "M9x0.75 lead 2.6",
    );
    let log = json(&run(folder.path(), &["compare", "--format", "sarif"]));
    let validator = jsonschema::validator_for(&schema()).unwrap();
    let wrong: Vec<String> = validator
        .iter_errors(&log)
        .map(|it| it.to_string())
        .collect();
    assert_eq!(wrong, Vec::<String>::new());
    let results = log["runs"][0]["results"].as_array().unwrap();
    let of = |state: &str| {
        results
            .iter()
            .filter(|it| it["baselineState"] == state)
            .count()
    };
    assert!(of("new") >= 1, "{results:#?}");
    assert!(of("unchanged") > 10, "{}", of("unchanged"));
    assert!(results.iter().all(|it| it["baselineState"].is_string()));
}

#[test]
fn a_page_needs_nothing_else_and_markdown_stays_short() {
    let folder = repository("");
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 10.6",
    );
    let page = told(&folder, &["--format", "html"]);
    assert!(page.contains("<svg") && page.contains("section of heron, old under new"));
    for foreign in ["<script", "http://", "https://", "src="] {
        let own = page.replace("http://www.w3.org/2000/svg", "");
        assert!(!own.contains(foreign), "{foreign}");
    }
    let short = told(&folder, &["--format", "markdown"]);
    assert!(short.starts_with("## 1 pen changed"), "{short}");
    assert!(short.contains("<details>"), "{short}");
    // Two hundred pens that all change.
    for number in 0..200 {
        let text = fs::read_to_string(folder.path().join("heron.quillet")).unwrap();
        let text = text.replace("pen heron ", &format!("pen heron-{number} "));
        let text = text.replace("pen heron-ida ", &format!("pen ida-{number} "));
        let text = text.replace("like heron {", &format!("like heron-{number} {{"));
        fs::write(folder.path().join(format!("heron-{number}.quillet")), text).unwrap();
    }
    let scratch = Scratch {
        folder: folder.path(),
    };
    scratch.commit("many");
    for (old, new) in [
        ("M10x0.75 lead 2", "M10x0.75 lead 2.4"),
        ("lead 4.5", "lead 4.8"),
    ] {
        change(folder.path(), "saltings.quillet", old, new);
    }
    let long = told(&folder, &["--format", "markdown"]);
    assert!(long.len() <= 60_000, "{}", long.len());
    assert!(long.contains("more: see the page"), "{}", long.len());
    let pictures = folder.path().join("pictures");
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 10.6",
        "let grip = 10.8",
    );
    told(&folder, &["--pen", "heron", "--pictures", "pictures"]);
    assert!(pictures.join("heron-section.svg").is_file());
}
