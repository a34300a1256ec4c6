//! `quillet compare`: what a change does, in scratch repositories.

mod forms;
mod refused;

use crate::run::{json, repository, run, stderr, stdout};
use quillet_fixture::Scratch;
use serde_json::Value;
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
