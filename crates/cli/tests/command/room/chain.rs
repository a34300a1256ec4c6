//! A chain of sizes at the maker's own hand and at the standard's: in `measure`, on the sheet, in what is asked
//! of one that is made.

use super::by_the_standard;
use crate::run::{json, repository, run, stderr};
use std::fs;
use std::path::Path;

/// What is left between Heron's nib and the end of its cap's hole, drawn and at worst, of one kind.
fn left(folder: &Path, kind: &str) -> (f64, f64) {
    let args = [
        "measure",
        "heron.quillet",
        "--pen",
        "heron",
        "--full",
        "--format",
        "json",
    ];
    let measured = json(&run(folder, &args));
    let joints = measured["pens"][0]["joints"].as_array().unwrap();
    let mut all = joints
        .iter()
        .flat_map(|it| it["clearances"].as_array().unwrap());
    let found = all.find(|it| {
        let says = |key: &str, part: &str| it[key].as_str().unwrap().contains(part);
        it["kind"] == kind && says("male", "nib-unit") && says("female", "cap")
    });
    let mm = |key: &str| found.unwrap()[key].as_f64().unwrap();
    (mm("nominal_mm"), mm("worst_mm"))
}

/// Between what the cap's hole to 54 is asked: on the sheet at the drill's point, in a maker's file at its corner.
fn asked(folder: &Path) -> (String, String) {
    let path = folder.join("heron.json");
    let shown = path.display().to_string();
    let written = run(
        folder,
        &["sheet", "heron.quillet", "--pen", "heron", "-o", &shown],
    );
    assert_eq!(written.status.code(), Some(0), "{}", stderr(&written));
    let sheet: serde_json::Value = serde_json::from_slice(&fs::read(path).unwrap()).unwrap();
    let parts = sheet["sheet"]["parts"].as_array().unwrap();
    let cap = parts.iter().find(|it| it["name"] == "cap").unwrap();
    let mut rows = cap["holdings"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|it| it["rows"].as_array().unwrap());
    let row = rows
        .find(|it| it["verb"] == "DRILL" && it["reach"] == "to 54")
        .unwrap();
    let made = run(
        folder,
        &[
            "made",
            "heron.quillet",
            "--pen",
            "heron",
            "--name",
            "heron-1",
        ],
    );
    assert_eq!(made.status.code(), Some(0), "{}", stderr(&made));
    let made = fs::read_to_string(folder.join("heron-1.quillet")).unwrap();
    let line = made
        .lines()
        .find(|it| it.contains("drill 12.2 to 54"))
        .unwrap();
    let corner = line.rsplit_once(", ").unwrap().1;
    (
        row["length"].as_str().unwrap().to_owned(),
        corner.to_owned(),
    )
}

/// The fourth case. 54 − 8 − 22 + 1.2 − 23.7 = 1.50 to the corner, 3.9635 to the cone. By ISO 2768-1 the depth
/// (m, over 30 to 120), the two shoulders and the section's inside end take 0.3 + 0.1 + 0.1 + 0.1, the nib 1.0;
/// the example bench keeps 0.15, 0.05, 0.05, 0.15 and 0.3. The sheet asks the depth where a rod reads it, at
/// the point: 54 + 6.1 / tan 59° = 57.665.
#[test]
fn a_chain_is_as_long_as_the_hand_that_makes_it() {
    let near = |found: (f64, f64), wanted: (f64, f64)| {
        let off = (found.0 - wanted.0).abs().max((found.1 - wanted.1).abs());
        assert!(off < 0.005, "{found:?}, {wanted:?}");
    };
    let folder = by_the_standard();
    near(left(folder.path(), "corner"), (1.50, -0.10));
    near(left(folder.path(), "ahead"), (3.9635, 2.3635));
    let (point, corner) = asked(folder.path());
    assert_eq!((&*point, &*corner), ("57.37–57.97", "53.70 to 54.30 deep"));
    let folder = repository("");
    near(left(folder.path(), "corner"), (1.50, 0.80));
    near(left(folder.path(), "ahead"), (3.9635, 3.2635));
    let (point, corner) = asked(folder.path());
    assert_eq!((&*point, &*corner), ("57.52–57.82", "53.85 to 54.15 deep"));
}
