//! `quillet check` from end to end: what it prints and how it ends.

mod texts;

use crate::run::{examples, json, run, run_fed, stderr, stdout};
use serde_json::Value;
use tempfile::TempDir;

/// A folder of its own with one file.
fn folder(name: &str, bytes: &[u8]) -> TempDir {
    let folder = TempDir::new().unwrap();
    std::fs::write(folder.path().join(name), bytes).unwrap();
    folder
}

/// What a text's findings are, and how the process ended.
fn found(text: &str) -> (Vec<Value>, Option<i32>) {
    let folder = folder("pen.quillet", text.as_bytes());
    let output = run(folder.path(), &["check", "pen.quillet", "--format", "json"]);
    let report: Value = json(&output);
    (
        report["findings"].as_array().unwrap().clone(),
        output.status.code(),
    )
}

const PART: &str = "part barrel from mouth to tail {\n  blank of acrylic rod 16\n  length 60\n  \
                    outside dia 13\n}\n";

#[test]
fn heron_is_clean_and_ends_with_0() {
    let output = run(&examples(), &["check", "heron.quillet"]);
    assert_eq!(stdout(&output), "1 file checked, nothing found\n");
    assert_eq!(
        (output.status.code(), stderr(&output).as_str()),
        (Some(0), "")
    );
}

#[test]
fn knot_is_drawn_and_ends_with_1() {
    let output = run(&examples(), &["check", "knot.quillet"]);
    assert_eq!(output.status.code(), Some(1));
    let text = stdout(&output);
    assert!(
        !text.contains('\u{1b}'),
        "colour where there is no terminal"
    );
    let trimmed: Vec<&str> = text.lines().map(str::trim_end).collect();
    insta::assert_snapshot!(trimmed.join("\n"));
}

#[test]
fn a_folder_is_walked_and_what_it_shares_told_once() {
    let output = run(&examples(), &["check", ".", "--format", "json"]);
    let report: Value = json(&output);
    let alone = run(
        &examples(),
        &["check", "./knot.quillet", "--format", "json"],
    );
    let alone: Value = json(&alone);
    let of_knot = |report: &Value| -> Vec<Value> {
        let all = report["findings"].as_array().unwrap().iter();
        all.filter(|it| it["file"] == "knot.quillet")
            .cloned()
            .collect()
    };
    assert!(report["files"].as_u64().unwrap() >= 4);
    assert!(of_knot(&report) == of_knot(&alone), "told otherwise alone");
    assert!(!of_knot(&alone).is_empty());
}

#[test]
fn json_gives_lines_and_columns_in_characters_and_offsets_in_bytes() {
    let text = format!("-- ⌀ and — a dash\n{}", PART.replace("dia 13", "dia 13 ⌀"));
    let (findings, code) = found(&text);
    let it = &findings[0];
    assert_eq!(
        (it["rule"].as_str(), it["severity"].as_str()),
        (Some("syntax"), Some("error"))
    );
    assert_eq!((it["file"].as_str(), code), (Some("pen.quillet"), Some(1)));
    let offset = text.rfind('⌀').unwrap();
    assert_eq!(it["start"]["offset"].as_u64(), Some(offset as u64));
    assert_eq!(
        it["end"]["offset"].as_u64(),
        Some((offset + '⌀'.len_utf8()) as u64)
    );
    assert_eq!(it["start"]["line"].as_u64(), Some(5));
    let column = "  outside dia 13 ⌀".chars().count() as u64;
    assert_eq!(it["start"]["column"].as_u64(), Some(column));
    assert_eq!(it["end"]["column"].as_u64(), Some(column + 1));
    assert!(it["related"].is_array() && it["edits"].is_array());
}

#[test]
fn edits_of_json_cure_what_they_are_for() {
    let text = "let a = 1\nlet b = a\n\npart barrel from mouth to tail {\n  blank of acrilic rod 16\n  length 60\n  outside dia 13\n}\n";
    let (findings, _) = found(text);
    let edit = &findings
        .iter()
        .find(|it| it["rule"] == "unknown-name")
        .unwrap()["edits"][0];
    let at = |end: &str| edit[end]["offset"].as_u64().unwrap() as usize;
    let mut cured = text.to_owned();
    cured.replace_range(at("start")..at("end"), edit["text"].as_str().unwrap());
    assert_eq!(found(&cured).1, Some(0));
}

#[test]
fn warnings_end_with_1_only_where_they_are_denied() {
    let text = PART.replace(
        "dia 13",
        "dia 13\n  from mouth {\n    drill 11.4 to 40\n  }",
    );
    let folder = folder("pen.quillet", text.as_bytes());
    let plain = run(folder.path(), &["check", "pen.quillet"]);
    assert!(stdout(&plain).contains("[thin-wall] warning"));
    assert_eq!(plain.status.code(), Some(0));
    let denied = run(
        folder.path(),
        &["check", "pen.quillet", "--deny", "warning"],
    );
    assert_eq!(denied.status.code(), Some(1));
}

#[test]
fn explain_prints_a_rules_page_or_the_list() {
    let page = stdout(&run(&examples(), &["explain", "thin-wall"]));
    assert!(page.starts_with("# thin-wall\n") && page.contains("```quillet passes"));
    let list = stdout(&run(&examples(), &["explain"]));
    assert!(
        list.lines()
            .any(|line| line.starts_with("thin-wall ") && line.contains("warning"))
    );
    let unknown = run(&examples(), &["explain", "thin-wal"]);
    assert_eq!(unknown.status.code(), Some(2));
    assert!(stderr(&unknown).contains("did you mean thin-wall?"));
}

/// A plain tube of 13 over 8, 60 long and bored through: π/4·(13² − 8²)·60 mm³, acrylic 1.19 g/cm³.
#[test]
fn measure_gives_volume_mass_centroid_and_walls() {
    let text = PART.replace("dia 13", "dia 13\n  from mouth {\n    bore 8 through\n  }");
    let folder = folder("pen.quillet", text.as_bytes());
    let output = run(
        folder.path(),
        &["measure", "pen.quillet", "--format", "json"],
    );
    let report: Value = json(&output);
    let part = &report["parts"][0];
    let volume = std::f64::consts::FRAC_PI_4 * (169.0 - 64.0) * 60.0;
    let near = |found: &Value, wanted: f64| {
        let found = found.as_f64().unwrap();
        // Told to the millionth.
        assert!((found - wanted).abs() <= 0.5e-6, "{found}, {wanted}");
    };
    near(&part["volume_mm3"], volume);
    near(&part["mass_g"], volume * 1.19e-3);
    near(&part["centroid_mm"], 30.0);
    let walls = part["walls"].as_array().unwrap();
    assert_eq!(walls.len(), 1);
    near(&walls[0]["least_mm"], 2.5);
    near(&walls[0]["to_mm"], 60.0);
}

#[test]
fn standard_input_is_checked_with_what_it_uses_from_here() {
    let folder = folder("bench.quillet", b"thread joint = M10x0.75\n");
    let piped = |text: &[u8]| run_fed(folder.path(), &["check", "-"], text);
    let text = format!("use \"bench.quillet\"\n{PART}").replace(
        "dia 13",
        "dia 13\n  from mouth { thread joint inside to 90 }",
    );
    let output = piped(text.as_bytes());
    assert_eq!(output.status.code(), Some(1));
    assert!(stdout(&output).contains("-:6:"), "{}", stdout(&output));
    assert!(!stdout(&output).contains("missing-file"));
    assert_eq!(piped(PART.as_bytes()).status.code(), Some(0));
    let unread = piped(b"\xff");
    assert_eq!(unread.status.code(), Some(2));
    assert!(stderr(&unread).contains("-: it is not UTF-8 text (byte 0)"));
}

#[test]
fn what_is_assumed_is_said_where_it_is_asked_for() {
    let cap = "part cap from mouth to crown {\n  blank of acrylic rod 18\n  length 60\n  \
               outside dia 16\n  from mouth {\n    THREAD\n  }\n}\n\
               bench shed {\n  keeps depth 0.2\n}\n";
    let reported = |cuts: &str| {
        let folder = folder("cap.quillet", cap.replace("THREAD", cuts).as_bytes());
        stdout(&run(folder.path(), &["check", "--full", "cap.quillet"]))
    };
    // The major diameter less the pitch, four pitches deeper: common practice, no published source.
    let assumed = reported("thread M10x1 inside to 8");
    assert!(
        assumed.contains(
            "cap.quillet:6: cap, from mouth: a tap drill ⌀9.00 to 12 for the M10x1 thread, \
             77 % of thread"
        ),
        "{assumed}"
    );
    let written = reported("drill 9 to 12\n    thread M10x1 inside to 8");
    assert!(written.contains("nothing is assumed"), "{written}");
    let folder = folder("cap.quillet", cap.replace("THREAD", "").as_bytes());
    let quiet = stdout(&run(folder.path(), &["check", "cap.quillet"]));
    assert!(!quiet.contains("assumed"), "{quiet}");
}

/// Stations out of their order are a note.
#[test]
fn notes_end_with_1_only_where_they_are_denied() {
    let stations = "outside {\n    at 60 dia 13\n    at 0 dia 13\n  }";
    let text = PART.replace("outside dia 13", stations);
    let folder = folder("pen.quillet", text.as_bytes());
    let end = |deny: &[&str]| {
        let args = [&["check", "pen.quillet"], deny].concat();
        run(folder.path(), &args).status.code()
    };
    assert_eq!(end(&[]), Some(0));
    assert_eq!(end(&["--deny", "warning"]), Some(0));
    assert_eq!(end(&["--deny", "note"]), Some(1));
}

/// One line a finding, the gravest first; each says where as an editor reads it.
#[test]
fn briefly_each_finding_is_a_line_and_errors_come_first() {
    // A wall of 0.5 on line 6, told first in the text; a name nobody gave on line 2, told first here.
    let text = PART
        .replace("}\n", "  from mouth {\n    drill 12 to 40\n  }\n}\n")
        .replace("outside dia 13", "outside dia 13\n  bench nowhere");
    let folder = folder("pen.quillet", text.as_bytes());
    let output = run(folder.path(), &["check", "--brief", "pen.quillet"]);
    let rendered = stdout(&output);
    let lines: Vec<&str> = rendered.lines().collect();
    assert_eq!(
        lines[0],
        "pen.quillet:5:9 error [unknown-name] no bench is called nowhere"
    );
    assert!(
        lines[1].starts_with("pen.quillet:7:5 ") && lines[1].contains("[thin-wall] "),
        "{rendered}"
    );
    assert!(lines.last().unwrap().starts_with("1 file checked: 1 error"));
    assert_eq!(output.status.code(), Some(1));
    // Errors first though they stand later: the bench after the cut.
    let later = text
        .replace("\n  bench nowhere", "")
        .replace("  }\n}", "  }\n  bench nowhere\n}");
    std::fs::write(folder.path().join("pen.quillet"), later).unwrap();
    let rendered = stdout(&run(folder.path(), &["check", "--brief", "pen.quillet"]));
    assert!(rendered.starts_with("pen.quillet:8:9 error "), "{rendered}");
    // Knot has many: as many lines as it has findings, and a sum.
    let knot = run(&examples(), &["check", "--brief", "knot.quillet"]);
    let rendered = stdout(&knot);
    let severity = |line: &str| {
        let word = line.split(' ').nth(1).unwrap().to_owned();
        ["error", "warning", "note"]
            .iter()
            .position(|it| *it == word)
    };
    let lines: Vec<&str> = rendered.lines().filter(|it| it.contains(" [")).collect();
    assert!(
        lines.len() > 2 && lines.is_sorted_by_key(|it| severity(it)),
        "{rendered}"
    );
    assert_eq!(rendered.lines().count(), lines.len() + 1);
}
