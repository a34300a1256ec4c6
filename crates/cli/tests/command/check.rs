//! `quillet check` from end to end: what it prints, how it ends, and what bad input comes to.

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
fn what_cannot_be_read_ends_with_2_and_is_named() {
    let folder = folder("bad.quillet", b"-- \xff\xfe\n");
    for (path, why) in [("bad.quillet", "UTF-8"), ("none.quillet", "no such file")] {
        let output = run(folder.path(), &["check", path]);
        assert_eq!(output.status.code(), Some(2), "{path}");
        let rendered = stderr(&output);
        assert!(
            rendered.contains(path) && rendered.contains(why),
            "{rendered}"
        );
    }
    // What can be read is still checked.
    std::fs::write(folder.path().join("good.quillet"), PART).unwrap();
    let output = run(folder.path(), &["check", "bad.quillet", "good.quillet"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(stdout(&output).contains("1 file checked"));
}

#[test]
fn sizes_that_cannot_be_are_found_where_they_stand() {
    for (line, with) in [
        ("length 60", "length 0"),
        ("length 60", "length -60"),
        ("length 60", "length 1000000000"),
        (
            "length 60",
            "length 99999999999999999999999999999999999999999999",
        ),
        ("length 60", "length 60parsec"),
        ("length 60", "length 60 / 0"),
        ("dia 13", "dia 13 {"),
        ("dia 13", "{ at 0 dia 13; at 70 dia 13 }"),
        ("dia 13", "dia 13\n  from mouth {\n    drill 8 to 99\n  }"),
        ("dia 13", "{ at 10 dia 13; at 60 dia 13 }"),
    ] {
        let text = PART.replace(line, with);
        let (findings, code) = found(&text);
        assert_eq!(code, Some(1), "{with}");
        let errors: Vec<_> = findings
            .iter()
            .filter(|it| it["severity"] == "error")
            .collect();
        assert!(
            !errors.is_empty() && errors.len() <= 3,
            "{with}: {errors:#?}"
        );
        for it in errors {
            let line = it["start"]["line"].as_u64().unwrap() as usize;
            assert!((1..=text.lines().count()).contains(&line), "{with}: {it}");
        }
    }
}

#[test]
fn files_that_use_each_other_and_links_in_a_circle_come_to_an_end() {
    let folder = folder("a.quillet", b"use \"b.quillet\"\n");
    std::fs::write(folder.path().join("b.quillet"), "use \"a.quillet\"\n").unwrap();
    let output = run(folder.path(), &["check", "."]);
    assert_eq!(output.status.code(), Some(1));
    assert!(stdout(&output).contains("use-cycle"));
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(".", folder.path().join("round")).unwrap();
        std::os::unix::fs::symlink("loop.quillet", folder.path().join("loop.quillet")).unwrap();
        let output = run(folder.path(), &["check", "a.quillet"]);
        assert_eq!(output.status.code(), Some(1));
        let output = run(folder.path(), &["check", "loop.quillet"]);
        assert_eq!(output.status.code(), Some(2));
    }
}

#[test]
fn ten_megabytes_and_deep_nesting_are_read_to_the_end() {
    let many: String = (0..5_000)
        .map(|nth| PART.replace("barrel", &format!("b{nth}")))
        .collect();
    let long = format!(
        "{PART}{}",
        "-- the tide comes in and goes out\n".repeat(300_000)
    );
    let mut junk = PART.repeat(2_000);
    junk.truncate(junk.len() / 3 * 2);
    let deep = format!("let a = {}1{}\n", "(".repeat(100_000), ")".repeat(100_000));
    let blocks = format!("part b from m to t {}\n", "{ ".repeat(100_000));
    let minuses = format!("let a = {}1\n", "- ".repeat(100_000));
    let sum = format!("let a = 1{}\n", " + 1".repeat(200_000));
    let curly = format!("{}\n", "“".repeat(300_000));
    let hashes = format!("{}\n", "# ".repeat(300_000));
    for (text, codes) in [
        (many, [0, 0]),
        (long, [0, 0]),
        (junk, [1, 1]),
        (deep, [0, 1]),
        (blocks, [1, 1]),
        (minuses, [0, 1]),
        (sum, [0, 1]),
        (curly, [1, 1]),
        (hashes, [1, 1]),
    ] {
        let folder = folder("pen.quillet", text.as_bytes());
        let output = run(folder.path(), &["check", "pen.quillet", "--format", "json"]);
        let code = output.status.code();
        assert!(
            codes.map(Some).contains(&code),
            "{code:?} {}",
            stderr(&output)
        );
    }
}

#[test]
fn any_line_ends_and_a_mark_at_the_front_are_read_alike() {
    let bad = PART.replace("length 60", "length 60g");
    let line = |text: &str| {
        let (findings, code) = found(text);
        assert_eq!(code, Some(1), "{text:?}");
        findings[0]["start"]["line"].as_u64().unwrap()
    };
    for text in [
        bad.clone(),
        bad.replace('\n', "\r\n"),
        bad.replace('\n', "\r"),
        format!("\u{feff}{bad}"),
    ] {
        assert_eq!(line(&text), 3, "{text:?}");
        let folder = folder("pen.quillet", text.as_bytes());
        let output = run(folder.path(), &["check", "pen.quillet"]);
        assert!(
            stdout(&output).contains("pen.quillet:3:"),
            "{}",
            stdout(&output)
        );
    }
    let (nothing, code) = found("");
    assert!(nothing.is_empty());
    assert_eq!(code, Some(0));
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
fn a_line_too_long_to_show_is_not_shown() {
    let text = format!("let a = {} + b\n", "1 + ".repeat(1_000));
    let folder = folder("pen.quillet", text.as_bytes());
    let output = run(folder.path(), &["check", "pen.quillet"]);
    assert_eq!(output.status.code(), Some(1));
    let text = stdout(&output);
    assert!(text.len() < 1_000, "{}", text.len());
    assert!(text.contains("pen.quillet:1:") && text.contains("too long to show"));
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
