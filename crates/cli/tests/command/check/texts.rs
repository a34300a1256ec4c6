//! What `quillet check` makes of odd texts: unreadable, circular, deep, wide, of any line end.

use super::{PART, folder, found};
use crate::run::{run, stderr, stdout};

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
fn a_line_too_long_to_show_is_not_shown() {
    let text = format!("let a = {} + b\n", "1 + ".repeat(1_000));
    let folder = folder("pen.quillet", text.as_bytes());
    let output = run(folder.path(), &["check", "pen.quillet"]);
    assert_eq!(output.status.code(), Some(1));
    let text = stdout(&output);
    assert!(text.len() < 1_000, "{}", text.len());
    assert!(text.contains("pen.quillet:1:") && text.contains("too long to show"));
}
