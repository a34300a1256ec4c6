//! `quillet tools` and `quillet cut` from end to end.

use crate::run::{self, examples, run, stderr, stdout};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Output;
use tempfile::TempDir;

fn heron() -> PathBuf {
    examples().join("heron.quillet")
}

fn quillet(folder: &Path, command: &str, file: &Path, more: &[&str]) -> Output {
    let args = [&[command, file.to_str().unwrap()], more].concat();
    run(folder, &args)
}

fn json(command: &str, file: &Path) -> Value {
    let more = ["--pen", "heron", "--format", "json"];
    run::json(&quillet(Path::new("."), command, file, &more))
}

#[test]
fn tools_count_the_seven_sizes_of_hole() {
    let list = &json("tools", &heron())["lists"][0];
    let sizes = serde_json::json!([13.1, 12.2, 9.3, 8.6, 8.0, 6.9, 6.3]);
    assert_eq!(list["hole_sizes_mm"], sizes);
    let tools = list["tools"].as_array().unwrap();
    let lacking = tools.iter().filter(|it| it["standing"] == "to buy");
    assert_eq!(lacking.count(), 0, "the bench has all it needs: {tools:#?}");
}

#[test]
fn pieces_add_up_to_what_is_sawn() {
    let lists = json("cut", &heron());
    let stocks = lists["lists"][0]["stocks"].as_array().unwrap();
    let pieces = stocks
        .iter()
        .flat_map(|it| it["pieces"].as_array().unwrap());
    let mut seen = 0;
    for piece in pieces {
        let mm = |key: &str| piece[key].as_f64().unwrap();
        let parts = [
            "part_mm",
            "facing_mm",
            "nub_mm",
            "stub_mm",
            "spigot_and_glue_mm",
        ];
        let sum: f64 = parts.iter().map(|key| mm(key)).sum();
        assert!((sum - mm("saw_to_mm")).abs() < 1e-9, "{piece}");
        seen += 1;
    }
    assert_eq!(seen, 3);
}

#[test]
fn rods_of_a_length_are_packed() {
    let folder = TempDir::new().unwrap();
    let part = |name: &str, length: u32| {
        format!(
            "part {name} from a to b {{\n  blank stick\n  length {length}\n  outside dia 12\n  from a {{ drill 6 through }}\n}}\n"
        )
    };
    let text = ["blank stick of acrylic rod 15 by 120\n".to_owned()]
        .into_iter()
        .chain([
            part("one", 60),
            part("two", 50),
            part("three", 40),
            part("four", 55),
        ]);
    let file = folder.path().join("sticks.quillet");
    std::fs::write(&file, text.collect::<String>()).unwrap();
    let output = quillet(folder.path(), "cut", &file, &[]);
    let text = stdout(&output);
    // 65, 55, 45 and 60 with 2.5 faced off each end: 65 + 55 leaves no room for the saw, so
    // 65 + 45 and 60 + 55.
    assert!(text.contains("length 1: one, three"), "{text}");
    assert!(text.contains("length 2: four, two"), "{text}");
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn a_list_is_written_where_asked_and_never_over_another_file() {
    let folder = TempDir::new().unwrap();
    let written = |name: &str| {
        let output = quillet(folder.path(), "cut", &heron(), &["-o", name]);
        output.status.code()
    };
    assert_eq!(written("cut.txt"), Some(0));
    assert_eq!(written("cut.txt"), Some(0));
    assert_eq!(written("cut.json"), Some(0));
    std::fs::write(folder.path().join("mine.txt"), "mine").unwrap();
    assert_eq!(written("mine.txt"), Some(2));
    let bytes = std::fs::read(folder.path().join("cut.json")).unwrap();
    let list: Value = serde_json::from_slice(&bytes).unwrap();
    assert!(list["lists"].is_array());
    assert_eq!(
        std::fs::read(folder.path().join("mine.txt")).unwrap(),
        b"mine"
    );
}

#[test]
fn what_has_no_part_to_cut_is_told() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("bare.quillet");
    std::fs::write(&file, "let a = 3\n").unwrap();
    let output = quillet(folder.path(), "tools", &file, &[]);
    assert_eq!(output.status.code(), Some(2));
    let reported = stderr(&output);
    assert!(reported.contains("no part"), "{reported}");
}

/// A file in inches is answered in inches, drills by their names (ASME B94.11M: 17/64, letter U is
/// 0.368 in); `--units` overrides it, and JSON stays in millimetres.
#[test]
fn lists_follow_the_units_of_the_file() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("inch.quillet");
    let text = "dimensions in inches\n\nthread joint = 7/16-14\n\npart barrel from mouth to tail {\n  \
                blank of acrylic rod 3/4\n  length 3\n  outside dia 0.62\n  from mouth {\n    \
                drill letter U to 1\n    thread joint inside to 0.5\n    drill 17/64 to 2\n  }\n}\n";
    std::fs::write(&file, text).unwrap();
    let reported = |command: &str, more: &[&str]| {
        let output = quillet(folder.path(), command, &file, more);
        stdout(&output)
    };
    let tools = reported("tools", &[]);
    for line in [
        "drill 17/64 ",
        "drill letter U ",
        "sizes of hole: letter U, 17/64",
    ] {
        assert!(tools.contains(line), "{tools}");
    }
    // In millimetres an inch drill keeps its name beside its size, and sizes are to a hundredth.
    let metric = reported("tools", &["--units", "mm"]);
    for line in [
        "drill Ø6.75 (17/64) ",
        "drill Ø9.35 (letter U) ",
        "sizes of hole: 9.35, 6.75\n",
    ] {
        assert!(metric.contains(line), "{metric}");
    }
    let sawn = reported("cut", &[]);
    assert!(
        sawn.contains("acrylic rod 0.75\n") && sawn.contains("in in all"),
        "{sawn}"
    );
    let json: Value = serde_json::from_str(&reported("tools", &["--format", "json"])).unwrap();
    assert_eq!(json["lists"][0]["hole_sizes_mm"][0], 9.3472);
}

/// Twelve pens are twelve pieces of each part, each called by its number and as long as the one, sawn
/// from one stock.
#[test]
fn twelve_pens_are_sawn_together() {
    let asked = |more: &[&str]| {
        let more = [more, &["--format", "json"]].concat();
        run::json(&quillet(Path::new("."), "cut", &heron(), &more))
    };
    let one = asked(&["--pen", "heron"]);
    let twelve = asked(&["--pen", "heron:12"]);
    assert_eq!(twelve["lists"].as_array().unwrap().len(), 1);
    assert_eq!(twelve["lists"][0]["of"], "12 × Heron");
    let stocks = |lists: &Value| lists["lists"][0]["stocks"].as_array().unwrap().clone();
    for (alone, all) in stocks(&one).iter().zip(stocks(&twelve)) {
        let pieces = |it: &Value| it["pieces"].as_array().unwrap().clone();
        assert_eq!(pieces(alone).len() * 12, pieces(&all).len());
        for piece in pieces(alone) {
            assert!(piece["number"].is_null() && piece["pen"].is_null());
            let alike: Vec<u64> = pieces(&all)
                .iter()
                .filter(|it| it["part"] == piece["part"] && it["saw_to_mm"] == piece["saw_to_mm"])
                .map(|it| it["number"].as_u64().unwrap())
                .collect();
            assert_eq!(alike, (1..=12).collect::<Vec<_>>());
        }
    }
    let text = stdout(&quillet(
        Path::new("."),
        "cut",
        &heron(),
        &["--pen", "heron:2", "--pen", "heron-ida"],
    ));
    assert!(text.starts_with("2 × Heron, Heron for Ida, "), "{text}");
    for wanted in ["heron cap #1", "heron cap #2", "heron-ida cap "] {
        assert!(text.contains(wanted), "{wanted}\n{text}");
    }
}

/// A rod of 18 sawn to L is π/4·18²·L; of it stays what `quillet measure` tells as the cap's volume,
/// which the outside checks work out anew.
#[test]
fn a_piece_tells_what_is_turned_off_it() {
    let lists = json("cut", &heron());
    let pieces = lists["lists"][0]["stocks"][0]["pieces"].as_array().unwrap();
    let cap = pieces.iter().find(|it| it["part"] == "cap").unwrap();
    let mm = |key: &str| cap[key].as_f64().unwrap();
    let blank = std::f64::consts::FRAC_PI_4 * 18.0 * 18.0 * mm("saw_to_mm");
    assert!((mm("blank_mm3") - blank).abs() < 1e-3, "{cap}");
    let measured = quillet(Path::new("."), "measure", &heron(), &["--format", "json"]);
    let measured = run::json(&measured);
    let parts = measured["parts"].as_array().unwrap();
    let part = parts.iter().find(|it| it["name"] == "cap").unwrap();
    let volume = part["volume_mm3"].as_f64().unwrap();
    assert!((mm("part_mm3") - volume).abs() < 1e-3, "{cap}");
    let share = 1.0 - volume / blank;
    assert!((mm("turned_off_share") - share).abs() < 1e-6);
}
