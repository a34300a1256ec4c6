//! What is not known is left out of every result, and said to be.

use crate::run::{self, ended, examples};
use std::path::Path;
use tempfile::TempDir;

const PARTS: &str = "part tube from mouth to end {\n  blank of acrylic rod 14\n  length 50\n  \
                     outside dia 12\n  from mouth {\n    bore 7.1 to 30\n  }\n}\n\n\
                     part plug from tip to tail {\n  blank of brass rod 10\n  length 12\n  \
                     outside dia 9\n  from tip {\n    tenon 7 for 8\n  }\n}\n";
const PEN: &str = "\npen sketch {\n  slip plug.tip into tube.mouth\n}\n";

fn run(folder: &Path, args: &[&str]) -> (Option<i32>, String, String) {
    ended(&run::run(folder, args))
}

fn folder(text: &str) -> TempDir {
    let folder = TempDir::new().unwrap();
    std::fs::write(folder.path().join("sketch.quillet"), text).unwrap();
    folder
}

/// Each with what takes the tube's shape away: a size that cannot be read, a bore as wide as its
/// outside.
const SHAPELESS: [(&str, &str); 2] = [("bore 7.1", "bore seven"), ("bore 7.1 to", "bore 12.6 to")];

#[test]
fn drawings_leave_out_what_has_no_shape() {
    let sound = folder(&(PARTS.to_owned() + PEN));
    let (code, _, written) = run(sound.path(), &["draw", "sketch.quillet", "-o", "all.pdf"]);
    assert_eq!((code, written.as_str()), (Some(0), ""));
    let whole = std::fs::read(sound.path().join("all.pdf")).unwrap();
    let pages = |pdf: &[u8]| {
        let text = String::from_utf8_lossy(pdf).into_owned();
        text.matches("/Type /Page\n").count() + text.matches("/Type /Page>").count()
    };
    for (from, to) in SHAPELESS {
        let damaged = folder(&(PARTS.to_owned() + PEN).replace(from, to));
        let at = damaged.path();
        let (code, _, written) = run(at, &["draw", "sketch.quillet", "-o", "all.pdf"]);
        assert_eq!(code, Some(1), "{to}: {written}");
        assert!(
            written.contains("tube has no shape") && written.contains("sketch is not put together"),
            "{to}: {written}"
        );
        // The plug is drawn, and nothing else: one page of three.
        let left = std::fs::read(at.join("all.pdf")).unwrap();
        assert_eq!((pages(&whole), pages(&left)), (3, 1), "{to}");
        let one = |part: &str, name: &str| {
            let (code, _, written) =
                run(at, &["draw", "sketch.quillet", "--part", part, "-o", name]);
            (code, written.contains("left out"), at.join(name).exists())
        };
        assert_eq!(one("tube", "tube.svg"), (Some(1), true, false), "{to}");
        assert_eq!(one("plug", "plug.svg"), (Some(0), false, true), "{to}");
        let solid = |args: &[&str], name: &str| {
            let all = [&["solid", "sketch.quillet", "-o", name], args].concat();
            (run(at, &all).0, at.join(name).exists())
        };
        assert_eq!(solid(&[], "all.step"), (Some(1), true), "{to}");
        let step = std::fs::read_to_string(at.join("all.step")).unwrap();
        assert!(step.contains("'plug'") && !step.contains("'tube'"), "{to}");
        assert_eq!(
            solid(&["--assembled=uncapped"], "pen.step"),
            (Some(1), false),
            "{to}"
        );
    }
}

#[test]
fn lists_leave_out_what_cannot_be_made_as_it_stands() {
    let unknown_stock = ("of acrylic", "of nowhere-resin");
    for (from, to) in SHAPELESS.into_iter().chain([unknown_stock]) {
        for pen in ["", PEN] {
            let damaged = folder(&(PARTS.to_owned() + pen).replace(from, to));
            for command in ["tools", "cut"] {
                let (code, list, written) = run(damaged.path(), &[command, "sketch.quillet"]);
                assert_eq!(code, Some(1), "{command}, {to}: {written}");
                assert!(
                    written.contains("tube ") && written.contains(" and is left out"),
                    "{written}"
                );
                assert!(list.contains("plug") && !list.contains("tube "), "{list}");
            }
        }
    }
}

#[test]
fn a_sheet_that_is_written_anyway_shows_nothing_unknown() {
    let damaged = folder(&(PARTS.to_owned() + PEN).replace("bore 7.1", "bore seven"));
    let args = ["sheet", "sketch.quillet", "--anyway", "-o", "sheet.html"];
    assert_eq!(run(damaged.path(), &args).0, Some(0));
    let page = std::fs::read_to_string(damaged.path().join("sheet.html")).unwrap();
    assert!(page.contains("tube has no shape that could be worked out and is left out"));
    // The plug's pages, no picture of the pen put together.
    assert!(
        !page.contains("<title>capped</title>") && !page.contains("<title>taken apart</title>")
    );
    assert_eq!(page.matches("<section id=\"part-").count(), 1);
}

/// A file of several pens gets a sheet for each: beside it, in a folder, or by the names of each.
#[test]
fn each_pen_of_a_file_gets_its_sheet() {
    let other = PEN.replace("sketch", "rail");
    let sound = folder(&(PARTS.to_owned() + PEN + &other));
    let at = sound.path();
    let there = |names: [&str; 2]| names.map(|name| at.join(name).exists());
    // Whatever the checker says of these pens, they are written.
    let sheet = |more: &[&str]| {
        run(
            at,
            &[&["sheet", "sketch.quillet", "--anyway"], more].concat(),
        )
    };
    assert_eq!(sheet(&[]).0, Some(0));
    assert_eq!(there(["sketch-sheet.html", "rail-sheet.html"]), [true; 2]);
    assert_eq!(sheet(&["-o", "lathe"]).0, Some(0));
    assert_eq!(
        there(["lathe/sketch-sheet.html", "lathe/rail-sheet.html"]),
        [true; 2]
    );
    assert_eq!(sheet(&["-o", "lathe.txt"]).0, Some(0));
    assert_eq!(there(["lathe-sketch.txt", "lathe-rail.txt"]), [true; 2]);
    assert!(!at.join("lathe.txt").exists());
    let one = ["--pen", "rail", "-o"];
    assert_eq!(sheet(&[&one[..], &["one.txt"]].concat()).0, Some(0));
    assert_eq!(there(["one.txt", "one-rail.txt"]), [true, false]);
    let (code, _, written) = sheet(&["-o", "-"]);
    assert_eq!(code, Some(2), "{written}");
    assert!(written.contains("--pen"), "{written}");
    // One drawing of several is asked for by its flag.
    let (code, _, written) = run(at, &["draw", "sketch.quillet", "-o", "one.svg"]);
    assert_eq!(code, Some(2));
    assert!(
        written.contains("--part NAME")
            && written.contains("--assembled")
            && written.contains("--pen NAME"),
        "{written}"
    );
}

/// Acrylic weighs from 1.17 to 1.20 g/cm³ (the table's range), so its masses are told with theirs;
/// and what nobody wrote is said to be assumed.
#[test]
fn a_sheet_tells_ranges_and_what_is_assumed() {
    let threaded = PARTS.replace("bore 7.1 to 30", "thread M8x0.75 inside to 9");
    let sound = folder(&(threaded + PEN));
    let args = ["sheet", "sketch.quillet", "--anyway", "-o", "sheet.txt"];
    assert_eq!(run(sound.path(), &args).0, Some(0));
    let text = std::fs::read_to_string(sound.path().join("sheet.txt")).unwrap();
    let reported = text.lines().find(|it| it.contains("uncapped")).unwrap();
    assert!(
        reported.contains(" to ") && reported.contains('('),
        "{reported}"
    );
    // Of the part itself, whose facts run over several lines.
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let (_, part) = words.split_once("50 mm long, blank ").unwrap();
    let (weight, assumed) = part.split_once(", assumed: ").unwrap();
    assert!(
        weight.contains(" g (") && weight.ends_with(" g)"),
        "{weight}"
    );
    assert!(assumed.starts_with("a tap drill ⌀"), "{assumed}");
    let (assumed, _) = assumed.split_once(" % of thread").unwrap();
    assert!(assumed.contains("M8x0.75"), "{assumed}");
}

/// No number without a value and no sign on nothing, whatever is asked of the shipped pens.
#[test]
fn no_figure_is_without_a_value_or_less_than_nothing_by_rounding() {
    let pens = ["heron", "dunlin", "godwit", "whimbrel", "knot"];
    let files = pens.map(|pen| format!("{pen}.quillet"));
    let mut asked: Vec<Vec<&str>> = Vec::new();
    for file in &files {
        asked.push(vec!["measure", "--full", file]);
        asked.push(vec!["measure", "--profiles", file]);
        asked.push(vec!["check", "--full", file, "--format", "json"]);
        for command in ["measure", "tools", "cut", "check"] {
            asked.push(vec![command, file]);
            asked.push(vec![command, file, "--format", "json"]);
        }
    }
    for question in [
        &["thread", "M13x0.8", "--starts", "3"][..],
        &["thread", "7/16-28UNEF"],
        &["drill", "letter F"],
        &["drill", "11.2", "--point", "180"],
        &["fit", "10 H7/h6"],
        &["fit", "10 JS7/h6"],
        &["material", "ebonite"],
        &["material"],
    ] {
        asked.push(question.to_vec());
        asked.push([question, &["--format", "json"]].concat());
    }
    for args in asked {
        let (_, reported, _) = run(&examples(), &args);
        assert!(!reported.is_empty(), "{args:?}");
        let ends = |c: char| c.is_whitespace() || "[](),;:".contains(c);
        for word in reported.split(ends) {
            let nothing = word
                .strip_prefix(['-', '−'])
                .is_some_and(|it| !it.is_empty() && it.chars().all(|c| c == '0' || c == '.'));
            let none = ["NaN", "inf", "-inf"].contains(&word);
            assert!(!nothing && !none, "{args:?}: {word}");
            // JSON: to the millionth, and ratios to the thousand-millionth.
            let decimals = word.split_once('.').map_or(0, |(_, part)| {
                part.chars().take_while(char::is_ascii_digit).count()
            });
            assert!(decimals <= 9, "{args:?}: {word}");
        }
    }
}
