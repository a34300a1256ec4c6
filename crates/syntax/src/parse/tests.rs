mod any;
mod threads;

pub(crate) use any::soup;

use super::*;
use crate::edited;

/// The findings of a text, each with the text it points at, its hint and its fixes.
fn reported(text: &str) -> String {
    let mut out = String::new();
    for finding in parse(FileId(0), text).findings {
        out += &format!("[{}] {}", &text[finding.span.range()], finding.message);
        if let Some(hint) = finding.hint {
            out += &format!("; {hint}");
        }
        for fix in finding.fixes {
            out += &format!(" ({})", fix.title);
        }
        out += "\n";
    }
    out
}

#[test]
fn the_whole_pen_reads_without_findings() {
    assert_eq!(reported(include_str!("tests/heron.quillet")), "");
}

#[test]
#[expect(clippy::too_many_lines, reason = "one list of texts and findings")]
fn what_is_missing_is_told_in_a_makers_words() {
    let part = |line: &str| reported(&format!("part cap from mouth to crown {{\n{line}\n}}"));
    let outside = |line: &str| part(&format!("outside {{\n{line}\n}}"));
    let cut = |line: &str| part(&format!("from mouth {{\n{line}\n}}"));
    let pen = |line: &str| reported(&format!("pen heron {{\n{line}\n}}"));
    let bench = |line: &str| reported(&format!("bench saltings {{\n{line}\n}}"));
    let written = [
        reported("let grip"),
        reported("let = 3"),
        reported("let grip 11.4"),
        reported("use saltings"),
        reported("part cap"),
        reported("part cap from mouth crown {\n}"),
        reported("part cap from mouth to crown\n"),
        reported("prt cap from mouth to crown {\n}"),
        reported("thread closing = 13x0.8"),
        reported("thread closing = M13x0.8 start 3"),
        reported("drill 8 to 3"),
        reported("heron"),
        reported("let a = (1 + 2"),
        reported("let a = 1 +"),
        reported("let a = 1 2"),
        reported("let a = min(1, )"),
        reported("let a = 1/0in"),
        reported("let a = 0.00000000000001"),
        reported("let a = 3\ndimensions in inches"),
        reported("let a = 3 {\n b\n}"),
        part("length"),
        part("lenght 64"),
        part("outside 3"),
        part("outside dia"),
        part("blank"),
        part("blank of reed 18"),
        part("mass"),
        part("flush"),
        outside("at 3"),
        outside("at 3 dia"),
        outside("at 3 dia smooth"),
        outside("at dia 3"),
        outside("at 3 15.2"),
        outside("at 3 dai 15.2 smoth"),
        outside("at 3 dia 15,2"),
        outside("3 dia 15.2"),
        cut("dril 8 to 3"),
        cut("drill to 12"),
        cut("drill 8"),
        cut("drill 8 to"),
        cut("drill 8 to 12 13"),
        cut("drill letter 8 to 12"),
        cut("thread joint to 9"),
        cut("thread inside to 9"),
        cut("mill 3 to 4"),
        cut("tenon 3"),
        cut("accept thin-wall"),
        cut("accept thin-wall because reasons"),
        pen("screw section into barrel.mouth"),
        pen("screw section.shank barrel.mouth"),
        pen("screw section.shank into"),
        pen("slip a.b into c.d fit tight"),
        pen("want length(capped)"),
        pen("want turns within 1"),
        pen("want turns = 3"),
        pen("close cap.mouth onto barrel.mouth {\n set cap.mouth on barrel.shoulder\n}"),
        reported("pen heron “Heron” {\n}"),
        reported("pen heron \"Heron {\n want ink >= 1\n}"),
        reported("thread closing = M13x"),
        reported("# a pen\n// another\n/* and one */"),
        part("length 64 mm"),
        part("mass 3 g"),
        outside("at 3 ⌀15"),
        cut("drill ⌀8 to 3"),
        // A brace left out costs itself.
        reported(
            "part a from b to c {\n  outside\n    at 0 dia 3\n    at 4 dia 4\n  }\n  from b {\n    drill 1 to 2\n  }\n}",
        ),
        reported(
            "part a from b to c {\n  from b\n    drill 1 to 2\n    drill 2 to 1\n  }\n  length 3\n}",
        ),
        reported("part a from b to c\n  length 3\n  outside dia 4\n}\n"),
        bench("drills"),
        bench("drills 1..13 by 0.1"),
        bench("taps"),
    ];
    insta::assert_snapshot!(written.concat());
}

#[test]
fn a_bench_says_what_stands_on_it() {
    let text = "\
bench shed {
  drills 1..13 step 0.1, #7 reach 90
  drills #1..#60, letter A..Z
  flats 8.6, 13.1
  boring 6 reach 35
  reamers 8
  collets 3..16 step 1
  bushings 9.9, 12.9 pilot 6.3
  mandrels 12, 16
  taps M10x0.75 lead C
  dies M13x0.8 starts 3 lead 4
  saw kerf 1.2
  lathe 250, 500..900, 1600 travel 60 bore 20 centres 400 screwcutting
}
blank stick of reed rod 18 by 300 matched
";
    assert_eq!(reported(text), "");
    for (phrase, word) in [("kerf 1.2", "saw"), ("250, 500", "lathe"), ("C", "lead")] {
        let without = reported(&text.replacen(&format!("{word} {phrase}"), word, 1));
        assert!(without.contains("is expected after"), "{word}: {without}");
    }
}

#[test]
fn what_is_miswritten_is_told_once() {
    let written = [
        "let Grip = 11.4",
        "let nib_unit = 3",
        "let a = 12mn",
        "let a = 3cc",
        "let a = 12,5",
        "use \"saltings",
        "let a = ⌀12",
        "let a = 12 ± 3",
        "let a = 3\u{a0}+ 4",
        "§ $ %",
        "Part cap from mouth to crown {\n}",
        "let a = 3 \u{7}\u{7}",
    ]
    .map(reported);
    insta::assert_snapshot!(written.concat());
}

#[test]
fn each_offered_fix_cures() {
    for text in [
        "prt cap from mouth to crown {\n}",
        "part cap from mouth to crown {\n  lenght 3\n}",
        "part cap from mouth to crown {\n  outside {\n    at 3 dai 15.2 smoth\n  }\n}",
        "part cap from mouth to crown {\n  outside {\n    at 3 dia 15,2\n  }\n}",
        "part cap from mouth to crown\n{\n}",
        "part cap like ferrule\n  length 8\n}\n",
        "part cap from mouth to crown { length 3 } let b = 2",
        "let b = 2\n}\n",
        "let Grip = 11.4",
        "let nib_unit = 3",
        "let a = 12mn",
        "let a = 3cc",
        "let a = 12,5",
        "use \"saltings",
        "let a = ⌀12",
        "let a = 3 ± 1\n",
        "let a = 3\u{a0}+ 4",
        "Part cap from mouth to crown {\n}",
    ] {
        let before = parse(FileId(0), text).findings;
        assert!(!before.is_empty(), "{text}");
        for finding in &before {
            for fix in &finding.fixes {
                let cured = edited(text, &fix.edits).unwrap();
                let after = parse(FileId(0), &cured).findings;
                assert!(
                    !after.iter().any(|other| other.message == finding.message),
                    "{text}: {}: {cured}",
                    fix.title
                );
            }
        }
        assert!(
            before.iter().any(|finding| !finding.fixes.is_empty()),
            "{text}"
        );
    }
}

#[test]
fn a_damaged_line_hides_nothing_around_it() {
    let text = "\
part cap from mouth to crown {
  length
  outside {
    at 0 dia
    at 5 dia 3
  }
  from mouth {
    drill 8 to
    bore ? to 3
    ream 9 to 4
  }
}
pen heron {
  screw a
  fill cap
}
let b = 2
";
    let tree = parse(FileId(0), text).tree;
    let ast::ItemKind::Part(part) = &tree.items[0].kind else {
        panic!("{tree:?}")
    };
    assert!(matches!(part.lines[0].kind, ast::LineKind::Length(_)));
    assert!(matches!(&part.lines[1].kind, ast::LineKind::Outside(stations) if stations.len() == 2));
    let ast::LineKind::From { features, .. } = &part.lines[2].kind else {
        panic!("{part:?}")
    };
    assert!(matches!(features[0].kind, ast::FeatureKind::Drill { .. }));
    assert!(matches!(features[2].kind, ast::FeatureKind::Ream { .. }));
    assert!(matches!(&tree.items[1].kind, ast::ItemKind::Pen(pen) if pen.lines.len() == 2));
    assert!(matches!(tree.items[2].kind, ast::ItemKind::Let(_)));
}

#[test]
fn comment_lines_directly_above_an_item_are_its_note() {
    let text = "-- a file\n\n-- the cap\n--   in reed\nlet a = 1 -- not this\nlet b = 2\n";
    let tree = parse(FileId(0), text).tree;
    let notes = tree.items.iter().map(|item| item.note.as_ref());
    let notes: Vec<_> = notes.map(|note| note.map(|note| &*note.text)).collect();
    assert_eq!(notes, [Some("the cap\nin reed"), None]);
}

#[test]
fn findings_are_capped() {
    let findings = parse(FileId(0), &"let\n".repeat(250)).findings;
    assert_eq!(findings.len(), crate::finding_log::MOST + 1);
    let last = findings.last().map(|finding| finding.message.as_str());
    assert_eq!(last, Some("150 more places cannot be read"));
}

#[test]
fn deep_and_long_sums_are_refused_and_not_run_into() {
    for text in [
        format!("let a = {}1{}", "(".repeat(100_000), ")".repeat(100_000)),
        format!("let a = {}1", "- ".repeat(100_000)),
        format!("let a = 1{}", " + 1".repeat(100_000)),
        format!("let a = {}", "min(".repeat(100_000)),
    ] {
        let reported = reported(&text);
        assert!(reported.contains("too deep or too long"), "{reported}");
        assert_eq!(reported.lines().count(), 1);
    }
    assert_eq!(
        reported(&format!("let a = {}1{}", "(".repeat(32), ")".repeat(32))),
        ""
    );
}

#[test]
fn a_tree_holds_what_was_written() {
    let text = "\
-- the grip
let grip = min(11.4, -(a + 7/16in) * 2)
part cap like hood {
  outside { at 6 from crown dia 14 bead 3 round 0.5 as rim }
  from mouth { drill #7 to 3 at 1 point 135; thread M10x0.75 starts 2 inside through }
}
";
    insta::assert_debug_snapshot!(parse(FileId(0), text).tree);
}
