//! `quillet compare`: what a change does, in every form, in scratch repositories.

use crate::run::{command, ended, examples, json, repository, run, stderr, stdout};
use crate::sarif::schema;
use quillet_fixture::Scratch;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// Changes a file of a folder; what is to be replaced is there.
fn change(folder: &Path, name: &str, old: &str, new: &str) {
    let path = folder.join(name);
    let text = fs::read_to_string(&path).unwrap();
    assert!(text.contains(old), "{name} has {old}");
    fs::write(path, text.replace(old, new)).unwrap();
}

fn code(folder: &TempDir, words: &[&str]) -> i32 {
    run(folder.path(), &[&["compare"], words].concat())
        .status
        .code()
        .unwrap()
}

fn told(folder: &TempDir, words: &[&str]) -> String {
    let output = run(folder.path(), &[&["compare"], words].concat());
    assert_eq!(stderr(&output), "", "{words:?}");
    stdout(&output)
}

fn report(folder: &TempDir, words: &[&str]) -> Value {
    json(&run(
        folder.path(),
        &[&["compare", "--format", "json"], words].concat(),
    ))
}

fn pen<'v>(report: &'v Value, name: &str) -> &'v Value {
    let mut pens = report["pens"].as_array().unwrap().iter();
    pens.find(|it| it["name"] == name).unwrap()
}

fn measure<'v>(pen: &'v Value, what: &str, of: &str) -> &'v Value {
    let mut all = pen["measures"].as_array().unwrap().iter();
    let found = all.find(|it| it["measure"] == what && it["of"] == of);
    found.unwrap_or_else(|| panic!("{what} of {of} in {pen:#}"))
}

fn close(value: &Value, wanted: f64, within: f64) {
    let is = value.as_f64().unwrap();
    assert!((is - wanted).abs() <= within, "{is}, not {wanted}");
}

/// The first acceptance case of the design, its figures to the last place that is printed.
#[test]
fn a_thinner_grip_is_told_by_all_that_it_does() {
    let folder = repository("");
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    let report = report(&folder, &[]);
    let heron = pen(&report, "heron");
    let capped = measure(heron, "mass", "capped");
    close(&capped["old_g"], 21.68, 0.005);
    close(&capped["new_g"], 21.69, 0.005);
    let uncapped = measure(heron, "mass", "uncapped");
    close(&uncapped["old_g"], 15.776, 0.0005);
    close(&uncapped["new_g"], 15.785, 0.0005);
    let balance = measure(heron, "balance", "uncapped");
    close(&balance["old_mm"], 68.44, 0.005);
    close(&balance["new_mm"], 68.42, 0.005);
    let room = measure(
        heron,
        "clearance",
        "section's shoulder in cap's ⌀12.20 drill",
    );
    close(&room["old_mm"], 0.40, 1e-6);
    close(&room["new_mm"], 0.60, 1e-6);
    let outline = &heron["outline"][0];
    close(&outline["shrunk"]["by_mm"], -0.40, 0.001);
    close(&outline["shrunk"]["at_mm"], 22.0, 0.05);
    close(&outline["grown"]["by_mm"], 0.19, 0.005);
    close(&outline["grown"]["at_mm"], 17.3, 0.05);
    assert_eq!(heron["findings"], Value::Array(Vec::new()));
    assert_eq!(pen(&report, "heron-ida")["state"], "same");
    assert_eq!(code(&folder, &["--pen", "heron"]), 0);
    assert_eq!(code(&folder, &["--pen", "heron", "--deny", "effect"]), 1);
    let text = told(&folder, &[]);
    let wanted = "  section's outside     most -0.40 mm at 22.0; grown 0.19 mm at 17.3\n";
    assert!(text.contains(wanted), "{text}");
    assert!(
        text.contains("\nheron-ida: the same\nevery other pen: the same\n"),
        "{text}"
    );
    assert!(text.contains("mandrel D, nose ⌀11.2 -> ⌀11"), "{text}");
}

/// The second: a bench is reviewed by its pens.
#[test]
fn a_changed_tap_is_told_pen_by_pen() {
    let folder = repository("");
    change(
        folder.path(),
        "saltings.quillet",
        "M9x0.75 lead 2",
        "M9x0.75 lead 2.6",
    );
    assert_eq!(code(&folder, &["--deny", "new-warning"]), 1);
    assert_eq!(code(&folder, &[]), 0);
    let report = report(&folder, &[]);
    let step = |name: &str| {
        let steps = pen(&report, name)["steps"].as_array().unwrap();
        let [step] = steps.as_slice() else {
            panic!("{name}: {steps:#?}")
        };
        format!(
            "{} -> {}",
            step["old"].as_str().unwrap(),
            step["new"].as_str().unwrap()
        )
    };
    assert!(
        step("avocet").contains("point at 11.0, "),
        "{}",
        step("avocet")
    );
    assert!(step("avocet").ends_with("hand") && step("avocet").contains("point at 11.6"));
    assert!(step("curlew").contains("point at 9.0") && step("curlew").contains("point at 9.6"));
    let found = &pen(&report, "curlew")["findings"];
    assert_eq!(found.as_array().unwrap().len(), 1);
    assert_eq!(found[0]["rule"], "no-room-for-tap");
    assert_eq!(found[0]["state"], "new");
    for other in report["pens"].as_array().unwrap() {
        let touched = ["avocet", "curlew"].contains(&other["name"].as_str().unwrap());
        assert_eq!(other["state"] == "changed", touched, "{}", other["name"]);
    }
    let text = told(&folder, &["HEAD", "--", "saltings.quillet"]);
    let first = "saltings.quillet: bench saltings: taps M9x0.75 lead 2 -> 2.6\n";
    assert!(text.starts_with(first), "{text}");
    assert!(text.ends_with("every other pen: the same\n"), "{text}");
}

/// The third: a thread renamed and parts in another order do nothing.
#[test]
fn a_renamed_thread_and_another_order_do_nothing() {
    let folder = repository("");
    let path = folder.path().join("heron.quillet");
    let text = fs::read_to_string(&path).unwrap();
    let renamed = text.replace("thread joint", "thread section-joint");
    assert_ne!(text, renamed);
    // A renaming is the lines that name it, and no other.
    fs::write(&path, quillet_syntax::format(&renamed)).unwrap();
    let scratch = Scratch {
        folder: folder.path(),
    };
    assert_eq!(
        scratch.git(&["diff", "--numstat"]).trim(),
        "3\t3\theron.quillet"
    );
    let at = |word: &str| renamed.find(word).unwrap();
    let (cap, barrel, pens) = (at("part cap"), at("part barrel"), at("pen heron \""));
    let pieces = [
        &renamed[..cap],
        &renamed[barrel..pens],
        &renamed[cap..barrel],
        &renamed[pens..],
    ];
    fs::write(&path, quillet_syntax::format(&pieces.concat())).unwrap();
    let text = told(&folder, &[]);
    assert!(
        text.contains("thread joint: renamed section-joint"),
        "{text}"
    );
    let report = report(&folder, &[]);
    for name in ["heron", "heron-ida"] {
        let pen = pen(&report, name);
        assert_eq!(
            (&pen["state"], &pen["measures"], &pen["steps"]),
            (&"same".into(), &Value::Array(vec![]), &Value::Array(vec![]))
        );
    }
    assert_eq!(code(&folder, &["--deny", "effect"]), 0);
    assert_eq!(code(&folder, &["--deny", "text"]), 1);
}

/// What only follows from a part that can no longer be made is told in one line.
#[test]
fn a_part_that_can_no_longer_be_made_says_so_once() {
    let folder = repository("");
    change(
        folder.path(),
        "heron.quillet",
        "at 8            dia 14.4  as shoulder",
        "at 9 dia 14.4 as shoulder",
    );
    let text = told(&folder, &["HEAD", "--pen", "heron"]);
    let of_barrel = text.lines().filter(|it| it.contains("barrel: gone"));
    let of_barrel: Vec<&str> = of_barrel.map(str::trim).collect();
    assert!(
        matches!(of_barrel[..], [one] if one.starts_with("barrel: gone: its whole route, ")),
        "{text}"
    );
    assert!(text.contains("capped 138.00 mm -> not known"), "{text}");
}

/// The fourth: what moves where nothing was written.
#[test]
fn an_outline_is_told_where_nothing_was_written() {
    let folder = repository("");
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 10.6",
    );
    change(
        folder.path(),
        "heron.quillet",
        "at 12           dia 10.0  smooth",
        "at 12 dia 9.6 smooth",
    );
    let report = report(&folder, &["--pen", "heron"]);
    let outline = &pen(&report, "heron")["outline"][0];
    close(&outline["shrunk"]["by_mm"], -0.80, 0.01);
    close(&outline["shrunk"]["at_mm"], 22.0, 0.2);
    close(&outline["grown"]["by_mm"], 0.23, 0.01);
    close(&outline["grown"]["at_mm"], 18.1, 0.2);
}

/// A pen that bears another name is compared with what it was; renamed there and back is nothing.
#[test]
fn a_renamed_part_and_pen_are_the_same() {
    let folder = repository("");
    let rename = |old: &str, new: &str| {
        let path = folder.path().join("godwit.quillet");
        let text = fs::read_to_string(&path).unwrap();
        fs::write(path, text.replace(old, new)).unwrap();
    };
    rename("section", "grip-section");
    rename("pen godwit ", "pen black-tail ");
    let report = report(&folder, &["--deny", "effect"]);
    let renamed = pen(&report, "black-tail");
    assert_eq!(renamed["state"], "renamed", "{renamed:#}");
    assert_eq!(renamed["from"], "godwit");
    assert_eq!(code(&folder, &["--deny", "effect"]), 0);
    rename("pen black-tail ", "pen godwit ");
    rename("grip-section", "section");
    assert_eq!(code(&folder, &["--deny", "text"]), 0);
    assert_eq!(told(&folder, &[]), "every pen: the same\n");
}

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

/// Whatever cannot be compared is a sentence and 2, and nothing is written.
#[test]
fn what_cannot_be_had_is_a_sentence() {
    let folder = repository("");
    let asked = |words: &[&str]| {
        let before = fs::read_dir(folder.path()).unwrap().count();
        let output = ended(&run(folder.path(), &[&["compare"], words].concat()));
        assert_eq!(
            (output.0, output.1.as_str()),
            (Some(2), ""),
            "{words:?}: {}",
            output.2
        );
        assert_eq!(
            fs::read_dir(folder.path()).unwrap().count(),
            before,
            "{words:?}"
        );
        output.2
    };
    assert!(asked(&["nobody"]).contains("there is no revision \"nobody\" here"));
    assert!(asked(&["nobody", "-o", "out.html"]).contains("there is no revision"));
    assert!(asked(&["HEAD:egret.quillet"]).contains("egret.quillet is not in HEAD"));
    assert!(asked(&["egret.quillet", "heron.quillet"]).contains("no such file or folder"));
    assert!(asked(&["heron.quillet"]).contains("is one side"));
    assert!(asked(&["--pen", "egret"]).contains("there is no pen egret"));
    assert!(asked(&["HEAD", "--", "egret.quillet"]).contains("no *.quillet file there"));
    let scratch = Scratch {
        folder: folder.path(),
    };
    // A branch each, and an index that holds both.
    scratch.git(&["checkout", "--quiet", "-b", "other"]);
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.2",
    );
    scratch
        .commit("theirs")
        .git(&["checkout", "--quiet", "main"]);
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    scratch.commit("ours").try_git(&["merge", "other"]);
    assert!(asked(&["HEAD", "index"]).contains("its merge is not finished"));
    let text = told(&folder, &["HEAD", "--pen", "heron"]);
    assert!(text.contains("unfinished-merge"), "{text}");
    // Which version counts is not known, so nothing else is told.
    assert_eq!(text.lines().count(), 2, "{text}");
    scratch.git(&["merge", "--abort"]);
    // A bare repository, a folder in none, a shallow clone.
    let bare = tempfile::tempdir().unwrap();
    let from = folder.path().to_str().unwrap();
    Scratch {
        folder: bare.path(),
    }
    .git(&["clone", "--quiet", "--bare", from, "."]);
    let in_bare = stderr(&run(bare.path(), &["compare"]));
    assert!(in_bare.contains("bare repository"), "{in_bare}");
    let none = tempfile::tempdir().unwrap();
    let in_none = stderr(&run(none.path(), &["compare"]));
    assert!(in_none.contains("is in no git repository"), "{in_none}");
    let url = format!("file://{from}");
    Scratch {
        folder: none.path(),
    }
    .git(&["clone", "--quiet", "--depth", "1", &url, "."]);
    let shallow = stderr(&run(none.path(), &["compare", "HEAD~1"]));
    assert!(shallow.contains("shallow clone"), "{shallow}");
}

#[test]
fn without_git_or_with_a_revision_like_an_option_nothing_is_written() {
    let folder = repository("");
    let names = || {
        let entries = fs::read_dir(folder.path()).unwrap();
        let names: BTreeSet<_> = entries.map(|it| it.unwrap().file_name()).collect();
        names
    };
    let before = names();
    let nowhere = tempfile::tempdir().unwrap();
    for words in [
        &["compare", "HEAD", "-o", "out.html"][..],
        &["measure", "--at", "HEAD", "heron.quillet"],
    ] {
        let mut command = command(folder.path());
        let output = command.env("PATH", nowhere.path()).args(words).output();
        let (code, printed, said) = ended(&output.unwrap());
        assert_eq!((code, printed.as_str()), (Some(2), ""), "{words:?}: {said}");
        assert!(said.contains("git"), "{said}");
    }
    for revision in ["-n", "--output=x", "--"] {
        let at = format!("--at={revision}");
        let output = run(folder.path(), &["sheet", &at, "heron.quillet"]);
        let (code, printed, said) = ended(&output);
        assert_eq!(
            (code, printed.as_str()),
            (Some(2), ""),
            "{revision}: {said}"
        );
        assert!(said.contains("there is no revision"), "{said}");
    }
    assert_eq!(names(), before);
}

#[test]
fn odd_names_and_worktrees_are_compared() {
    let folder = repository("");
    let scratch = Scratch {
        folder: folder.path(),
    };
    let heron = fs::read_to_string(examples().join("heron.quillet")).unwrap();
    let odd = "Ida’s \"blue\" Löffler\nnew.quillet";
    scratch.write(
        odd,
        &heron
            .replace("pen heron", "pen egret")
            .replace("like heron", "like egret"),
    );
    scratch.commit("odd");
    change(folder.path(), odd, "let grip = 11.4", "let grip = 11.0");
    assert!(told(&folder, &["--pen", "egret"]).contains("most -0.40 mm at 22.0"));
    let beside = tempfile::tempdir().unwrap();
    let place = beside.path().join("tree");
    scratch.git(&["worktree", "add", "--quiet", place.to_str().unwrap()]);
    change(
        &place,
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    let output = run(&place, &["compare", "--pen", "heron"]);
    assert!(
        stdout(&output).contains("most -0.40 mm at 22.0"),
        "{}",
        stderr(&output)
    );
    fs::write(folder.path().join("long.quillet"), vec![b'-'; 17 << 20]).unwrap();
    let (code, _, aside) = ended(&run(folder.path(), &["compare"]));
    assert_eq!(code, Some(2));
    assert!(aside.contains("longer than 16 MB"), "{aside}");
}

/// Radii may be drawn taller; the page says so, and nothing else takes the wish.
#[test]
fn radii_are_stretched_in_pictures_alone() {
    let folder = repository("");
    change(
        folder.path(),
        "heron.quillet",
        "let grip = 11.4",
        "let grip = 11.0",
    );
    let page = |words: &[&str]| told(&folder, &[&["HEAD", "--format", "html"], words].concat());
    let (plain, stretched) = (page(&[]), page(&["--stretch", "4"]));
    assert!(!plain.contains("radii"), "{plain}");
    let says = "section of heron, old under new, radii 4 times as high";
    assert!(stretched.contains(says), "{stretched}");
    for (words, why) in [
        (&["HEAD", "--stretch", "4"][..], "--stretch is for pictures"),
        (&["HEAD", "--stretch", "0.5", "--format", "html"], "1 to 20"),
    ] {
        let output = run(folder.path(), &[&["compare"], words].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(stderr(&output).contains(why), "{}", stderr(&output));
    }
}
