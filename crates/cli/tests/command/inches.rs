//! A pen in inches is answered in inches throughout, its drills by their names.

use crate::run::{ended, run};
use std::path::Path;
use tempfile::TempDir;

/// What a command says of the inch pen; it is to end well and without a word aside.
fn reported(folder: &Path, command: &str, more: &[&str]) -> String {
    let pen = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixture/pens/turnstone.quillet");
    let args = [&[command, pen.to_str().unwrap()], more].concat();
    let (code, printed, aside) = ended(&run(folder, &args));
    assert_eq!(code, Some(0), "{command} {more:?}: {aside}");
    printed
}

/// The lines that speak of millimetres.
fn in_mm(text: &str) -> Vec<&str> {
    let words = |line: &&str| line.split([' ', ',', ')', '<']).any(|word| word == "mm");
    text.lines().filter(words).collect()
}

#[test]
fn it_is_sound() {
    let folder = TempDir::new().unwrap();
    let reported = reported(folder.path(), "check", &["--deny", "note"]);
    assert!(reported.contains("nothing found"), "{reported}");
}

/// Capped: 2.65 of cap, 0.4 of barrel in it, 2.75 of barrel: 5 in. The barrel's wall between its
/// relief and the joint thread: (0.452 − 0.375) / 2 = 0.0385 in.
#[test]
fn measures_are_in_inches() {
    let folder = TempDir::new().unwrap();
    let full = reported(folder.path(), "measure", &["--full"]);
    assert_eq!(in_mm(&full), [""; 0], "{full}");
    for wanted in ["5.000 in", "at most 5.25 in", "0.0385 in", "17/64 drill"] {
        assert!(full.contains(wanted), "{wanted}: {full}");
    }
    let metric = reported(folder.path(), "measure", &["--units", "mm"]);
    assert!(metric.contains("127.00 mm"), "{metric}");
    let json = reported(folder.path(), "measure", &["--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let capped = &json["pens"][0]["configurations"]["capped"];
    assert_eq!(capped["length_mm"], 127.0);
}

#[test]
fn tools_and_cuts_are_in_inches() {
    let folder = TempDir::new().unwrap();
    let tools = reported(folder.path(), "tools", &[]);
    assert_eq!(in_mm(&tools), [""; 0]);
    for drill in ["#20", "letter F", "17/64", "9/32", "letter R", "15/32"] {
        assert!(tools.contains(&format!("drill {drill} ")), "{tools}");
    }
    assert_eq!(in_mm(&reported(folder.path(), "cut", &[])), [""; 0]);
}

#[test]
fn the_sheet_is_in_inches() {
    let folder = TempDir::new().unwrap();
    reported(folder.path(), "sheet", &["-o", "sheet.txt"]);
    let sheet = std::fs::read_to_string(folder.path().join("sheet.txt")).unwrap();
    assert_eq!(in_mm(&sheet), [""; 0]);
    assert!(
        sheet.contains("letter R") && sheet.contains("17/64"),
        "{sheet}"
    );
    let more = ["--units", "mm", "-o", "metric.txt"];
    reported(folder.path(), "sheet", &more);
    let sheet = std::fs::read_to_string(folder.path().join("metric.txt")).unwrap();
    assert!(
        sheet.contains("⌀6.75") && sheet.contains("127 mm"),
        "{sheet}"
    );
}

/// Dimensions to a thousandth, drills by name with what they measure (letter R is 0.339 in, ASME
/// B94.11M), the unit said, and something to measure the print by.
#[test]
fn drawings_are_in_inches() {
    let folder = TempDir::new().unwrap();
    let drawn = |more: &[&str]| {
        reported(folder.path(), "draw", more);
        let svg = std::fs::read_to_string(folder.path().join(more[more.len() - 1])).unwrap();
        let texts = svg.split("<text").skip(1).filter_map(|it| {
            let (text, _) = it.split_once('>')?.1.split_once("</text")?;
            Some(text.to_owned())
        });
        texts.collect::<Vec<String>>().join("\n")
    };
    let barrel = drawn(&["--part", "barrel", "-o", "barrel.svg"]);
    assert_eq!(in_mm(&barrel), [""; 0]);
    for wanted in [
        "letter R (Ø0.339)",
        "17/64 (Ø0.266)",
        "Ø0.452→0.620",
        "inches; A, B: datum faces",
        "broken 0.004 to 0.012",
        "check: 4 in",
        "ebonite, 0.75 in stock",
    ] {
        assert!(barrel.contains(wanted), "{wanted}: {barrel}");
    }
    let pen = drawn(&["--assembled", "-o", "pen.svg"]);
    assert_eq!(in_mm(&pen), [""; 0]);
    assert!(pen.contains("capped: 5.00 in"), "{pen}");
    assert!(pen.contains("Assembly drawing, inches"), "{pen}");
    let metric = drawn(&["--part", "barrel", "--units", "mm", "-o", "metric.svg"]);
    assert!(
        metric.contains("Ø6.75") && metric.contains("millimetres"),
        "{metric}"
    );
}
