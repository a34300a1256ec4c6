//! `quillet room`, `vary`, `aim` and `spread`: how far a number moves, how many pens of a hand pass, and what
//! is refused.

mod chain;
mod refused;
mod spread;

use crate::run::{ended, examples, json, run, stdout};
use std::path::Path;
use tempfile::TempDir;

const MANUAL: &str = include_str!("../../manual/language.md");

/// The examples at a bench that says nothing of how closely sizes are kept.
fn by_the_standard() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in quillet_fixture::EXAMPLES {
        let is_kept = |line: &&str| {
            let line = line.trim_start();
            line.starts_with("keeps ") || line.starts_with("caliper ")
        };
        let text: String = text
            .split_inclusive('\n')
            .filter(|it| !is_kept(it))
            .collect();
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

fn rooms(folder: &Path, file: &str, more: &[&str]) -> serde_json::Value {
    let args = [&["room", file, "--format", "json"], more].concat();
    json(&run(folder, &args))
}

/// The first of six cases by which room, hand and casting are accepted; the others say which they are.
/// The cone of the cap's 12.2 drill stands 3.9635 mm before the nib at 54: 54 − 8 − 22 + 1.2 − 23.7 to its
/// corner, and what the nib's radius leaves of 118°. The nib may stand 1.0 further out, the depth, the
/// shoulder, the section's and the cap's lengths by ISO 2768-1 add 0.3 + 0.1 + 0.1 + 0.1, and 0.5 has to
/// be left, so that 3.9635 − 1.6 − 0.5 = 1.8635 may go: 52.1365.
#[test]
fn a_cap_may_be_shallower_until_its_cone_meets_the_nib() {
    let folder = by_the_standard();
    let more = ["--of", "cap.mouth.drill.to", "--pen", "heron"];
    let found = rooms(folder.path(), "heron.quillet", &more);
    let room = &found["numbers"][0];
    let stretches = room["stretches"].as_array().unwrap();
    let own = stretches
        .iter()
        .find(|it| it[0].as_f64() <= Some(54.0) && it[1].as_f64() >= Some(54.0));
    let lower = own.unwrap()[0].as_f64().unwrap();
    assert!((52.1365..52.1465).contains(&lower), "{lower}");
    assert_eq!(room["below"]["rule"], "nib-strikes-cap");
}

/// Every end that is told passes, and a hundredth beyond it something is found that was not there: said
/// by the checker, of the text with that number in it.
#[test]
fn an_end_that_is_told_passes_and_a_hundredth_beyond_does_not() {
    let folder = by_the_standard();
    let names = [
        "cap.mouth.drill.to",
        "barrel.mouth.drill2.to",
        "section.shank.relief.dia",
    ];
    let of = names.iter().flat_map(|it| ["--of", *it]);
    let more: Vec<&str> = ["--until", "error"].into_iter().chain(of).collect();
    let found = rooms(folder.path(), "heron.quillet", &more);
    let text = std::fs::read_to_string(folder.path().join("heron.quillet")).unwrap();
    let errors = |number: &serde_json::Value, value: f64| {
        let line = number["line"].as_u64().unwrap() as usize - 1;
        let column = number["column"].as_u64().unwrap() as usize - 1;
        let (written, mut lines) = (
            number["written"].as_str().unwrap(),
            text.lines().map(str::to_owned).collect::<Vec<_>>(),
        );
        lines[line].replace_range(column..column + written.len(), &format!("{value:.2}"));
        std::fs::write(folder.path().join("moved.quillet"), lines.join("\n")).unwrap();
        let checked = json(&run(
            folder.path(),
            &["check", "moved.quillet", "--format", "json"],
        ));
        let findings = checked["findings"].as_array().unwrap().clone();
        findings
            .iter()
            .filter(|it| it["severity"] == "error")
            .count()
    };
    let mut edges = 0;
    for number in found["numbers"].as_array().unwrap() {
        let looked = &number["looked"];
        for stretch in number["stretches"].as_array().unwrap() {
            for (end, beyond) in [(0, -0.01), (1, 0.01)] {
                let at = stretch[end].as_f64().unwrap();
                assert_eq!(errors(number, at), 0, "{number} at {at}");
                if looked[end] != stretch[end] {
                    assert!(errors(number, at + beyond) > 0, "{number} beyond {at}");
                    edges += 1;
                }
            }
        }
    }
    assert!(edges >= 3, "{edges}");
}

/// The second case. A grip of 10 mm does not pass over the shank's own 10 mm thread; from 11.5 it stands proud of the
/// barrel's mouth, but not at 12, as wide as the relief there.
#[test]
fn what_passes_need_not_hang_together() {
    let args = [
        "vary",
        "heron.quillet",
        "grip=10..12",
        "step",
        "0.1",
        "--pen",
        "heron",
        "--format",
        "json",
    ];
    let varied = json(&run(&examples(), &args));
    let cases = varied["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 21);
    let gravest = |case: &serde_json::Value| {
        let first = case["findings"].as_array().unwrap().first().cloned();
        first.map_or_else(String::new, |it| {
            format!("{} {}", it["severity"], it["rule"]).replace('"', "")
        })
    };
    let all: Vec<String> = cases.iter().map(gravest).collect();
    assert_eq!(all[0], "error stops-early");
    assert_eq!(all[6..=14], [""; 9]);
    assert_eq!(all[15..=19], ["note proud-joint"; 5]);
    assert_eq!(all[20], "");
}

/// The third case. A drill of 8 mm takes π/4·8² mm² of reed at 1.19 g/cm³: 0.0598 g a millimetre. 15.78 g − 15.5 g is so much
/// deeper than 67.
#[test]
fn a_mass_is_aimed_at_by_a_depth() {
    let args = [
        "aim",
        "heron.quillet",
        "mass(uncapped) = 15.5",
        "--by",
        "barrel.mouth.drill2.to=60..75",
        "--pen",
        "heron",
        "--format",
        "json",
    ];
    let aimed = json(&run(&examples(), &args));
    let roots = aimed["roots"].as_array().unwrap();
    assert_eq!(roots.len(), 1, "{aimed}");
    let root = roots[0]["value"].as_f64().unwrap();
    assert!((root - 71.62).abs() < 0.02, "{root}");
    assert_eq!(roots[0]["findings"].as_array().map(Vec::len), Some(0));
    let [least, most] = [0, 1].map(|end| aimed["goes"][end].as_f64().unwrap());
    let a_millimetre = (most - least) / 15.0;
    let wanted = std::f64::consts::PI * 16.0 * 0.00119;
    assert!(
        (a_millimetre - wanted).abs() < 1e-4,
        "{a_millimetre}, {wanted}"
    );
}

#[test]
fn what_no_value_gives_is_told_with_how_far_it_goes() {
    let args = [
        "aim",
        "heron.quillet",
        "mass(uncapped) = 5",
        "--by",
        "barrel.mouth.drill2.to=60..75",
        "--pen",
        "heron",
    ];
    let (code, text, _) = ended(&run(&examples(), &args));
    assert_eq!(code, Some(1));
    assert!(
        text.starts_with("none; over barrel.mouth.drill2.to 60..75 it goes from 15."),
        "{text}"
    );
}

#[test]
fn a_number_is_found_by_its_name_or_its_place() {
    let heron = std::fs::read_to_string(examples().join("heron.quillet")).unwrap();
    let line = heron
        .lines()
        .position(|it| it.contains("let grip = 11.4"))
        .unwrap()
        + 1;
    let named = rooms(&examples(), "heron.quillet", &["--of", "grip"]);
    for place in [format!("{line}:12"), format!("heron.quillet:{line}:13")] {
        assert_eq!(
            rooms(&examples(), "heron.quillet", &["--of", &place]),
            named,
            "{place}"
        );
    }
    assert_eq!(named["numbers"][0]["name"], "grip");
}

/// A `let` that nothing rests on has no room to tell of.
#[test]
fn a_number_that_nothing_rests_on_moves_nothing() {
    let folder = by_the_standard();
    let path = folder.path().join("heron.quillet");
    let text = std::fs::read_to_string(&path).unwrap();
    std::fs::write(&path, text + "\nlet spare = 3\nlet spare-too = spare + 1\n").unwrap();
    for (name, nothing) in [("spare", true), ("spare-too", true), ("grip", false)] {
        let found = rooms(folder.path(), "heron.quillet", &["--of", name]);
        assert_eq!(found["numbers"][0]["moves_nothing"], nothing, "{name}");
    }
    let args = ["room", "heron.quillet", "--of", "spare"];
    let (_, text, _) = ended(&run(folder.path(), &args));
    assert!(text.contains("moves nothing"), "{text}");
}

#[test]
fn a_table_of_values_can_be_read_by_a_spreadsheet() {
    let args = [
        "vary",
        "heron.quillet",
        "grip=11..12",
        "step",
        "0.5",
        "--pen",
        "heron",
        "--show",
        "length(capped),turns",
        "--format",
        "csv",
    ];
    let (code, text, _) = ended(&run(&examples(), &args));
    assert_eq!(code, Some(0));
    let wanted = "grip,length(capped) mm,turns,found\n11,138,";
    assert!(text.starts_with(wanted), "{text}");
    assert_eq!(text.lines().count(), 4);
    let args = [
        "room",
        "heron.quillet",
        "--of",
        "cap.mouth.drill.dia",
        "--format",
        "csv",
    ];
    let (_, text, _) = ended(&run(&examples(), &args));
    let wanted = ",12.2,12.2,12.2,off-tap-drill,thin-wall\n";
    assert!(text.contains(wanted), "{text}");
}

/// What the manual shows of each is what it prints.
#[test]
fn the_chapters_on_room_and_hand_show_what_is_printed() {
    for (title, shown) in [("How far a number can move", 3), ("Your hand", 1)] {
        let (_, chapter) = MANUAL.split_once(&format!("\n## {title}\n")).unwrap();
        let (chapter, _) = chapter.split_once("\n## ").unwrap();
        let blocks = chapter.split("```text\n$ quillet ").skip(1);
        let blocks: Vec<&str> = blocks.map(|it| it.split("```").next().unwrap()).collect();
        assert_eq!(blocks.len(), shown, "{title}");
        for block in blocks {
            let (command, printed) = block.split_once('\n').unwrap();
            // As a shell reads it: what stands between quotes is one word.
            let quoted = command.split('"').enumerate();
            let words = quoted.flat_map(|(at, text)| match at % 2 {
                0 => text.split_whitespace().collect(),
                _ => vec![text],
            });
            let words: Vec<&str> = words.collect();
            assert_eq!(stdout(&run(&examples(), &words)), printed, "{command}");
        }
    }
}
