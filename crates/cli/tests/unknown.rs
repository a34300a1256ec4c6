//! What is not known is left out of every result, and said to be.

#![allow(clippy::unwrap_used, reason = "tests")]

use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

const PARTS: &str = "part tube from mouth to end {\n  blank of acrylic rod 14\n  length 50\n  \
                     outside dia 12\n  from mouth {\n    bore 7.1 to 30\n  }\n}\n\n\
                     part plug from tip to tail {\n  blank of brass rod 10\n  length 12\n  \
                     outside dia 9\n  from tip {\n    tenon 7 for 8\n  }\n}\n";
const PEN: &str = "\npen sketch {\n  slip plug.tip into tube.mouth\n}\n";

fn run(folder: &Path, args: &[&str]) -> (Option<i32>, String, String) {
    let mut quillet = Command::new(env!("CARGO_BIN_EXE_quillet"));
    let Output {
        status,
        stdout,
        stderr,
    } = quillet.current_dir(folder).args(args).output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (status.code(), text(stdout), text(stderr))
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
    let (code, _, said) = run(sound.path(), &["draw", "sketch.quillet", "-o", "all.pdf"]);
    assert_eq!((code, said.as_str()), (Some(0), ""));
    let whole = std::fs::read(sound.path().join("all.pdf")).unwrap();
    let pages = |pdf: &[u8]| {
        let text = String::from_utf8_lossy(pdf).into_owned();
        text.matches("/Type /Page\n").count() + text.matches("/Type /Page>").count()
    };
    for (from, to) in SHAPELESS {
        let damaged = folder(&(PARTS.to_owned() + PEN).replace(from, to));
        let at = damaged.path();
        let (code, _, said) = run(at, &["draw", "sketch.quillet", "-o", "all.pdf"]);
        assert_eq!(code, Some(1), "{to}: {said}");
        assert!(
            said.contains("tube has no shape") && said.contains("sketch is not put together"),
            "{to}: {said}"
        );
        // The plug is drawn, and nothing else: one page of three.
        let left = std::fs::read(at.join("all.pdf")).unwrap();
        assert_eq!((pages(&whole), pages(&left)), (3, 1), "{to}");
        let one = |part: &str, name: &str| {
            let (code, _, said) = run(at, &["draw", "sketch.quillet", "--part", part, "-o", name]);
            (code, said.contains("left out"), at.join(name).exists())
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
                let (code, list, said) = run(damaged.path(), &[command, "sketch.quillet"]);
                assert_eq!(code, Some(1), "{command}, {to}: {said}");
                assert!(
                    said.contains("tube ") && said.contains(" and is left out"),
                    "{said}"
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
    // The plug's drawing and template, none of the pen put together.
    assert!(!page.contains("class=\"overview\""));
    assert_eq!(page.matches("<figure class=\"drawing\">").count(), 1);
}
