mod pieces;

use crate::{examined, expect, message};

#[test]
#[expect(clippy::too_many_lines, reason = "one text")]
fn a_joint_finds_its_threads_wherever_they_lie() {
    // The cap's threads are on the section, beside those of its shank.
    let text = |inside: &str| {
        format!(
            "\
part section from tip to shank {{
  blank of ebonite rod 16
  length 40
  outside {{
    at 0  dia 10
    at 18 dia 10.9 smooth
    at 21 dia 10.9 step 12.9
    at 32 dia 12.9
  }}
  from tip {{
    thread M12x0.8 outside for 4 at 21
    relief 11 for 3 at 25
    tenon 11.9 for 28
  }}
  from shank {{
    tenon 9.9 for 8
    thread M10x0.75 outside for 6
    relief 9 for 2 at 6
  }}
}}

part barrel from mouth to tail {{
  blank of ebonite rod 18
  length 60
  outside dia 14
  from mouth {{
    countersink 10.4
    drill 9.25 to 14
    thread M10x0.75 inside to 9
  }}
}}

part cap from mouth to crown {{
  blank of ebonite rod 18
  length 60
  outside dia 15
  from mouth {{
    bore 12.2 to 3
    drill 11.2 to 40
    {inside}
  }}
}}

pen plain {{
  screw section.shank into barrel.mouth
  close cap.mouth onto section.tip
}}
"
        )
    };
    let threads = |text: &str| {
        let found = examined(text).findings;
        let of_joints = ["thread-mismatch", "missing-thread"];
        found
            .iter()
            .map(|it| it.rule.code())
            .filter(|it| of_joints.contains(it))
            .collect::<Vec<_>>()
    };
    let none: [&str; 0] = [];
    assert_eq!(threads(&text("thread M12x0.8 inside to 7 at 3")), none);
    assert_eq!(
        threads(&text("thread M12x1 inside to 7 at 3")),
        ["thread-mismatch"]
    );
    assert_eq!(threads(&text("")), ["missing-thread"]);
}

#[test]
fn a_countersink_keeps_a_lip_from_splitting() {
    let text = |first: &str| {
        format!(
            "\
part cap from mouth to crown {{
  blank of acrylic rod 18
  length 60
  outside dia 15.4
  from mouth {{
    {first}
    drill 12.2 to 50
    thread M13x0.8 inside to 6
--  ^^^^^^^^^^^^^^^^^^^^^^^^^^ mouth-splits
  }}
}}
"
        )
    };
    expect("mouth-splits", &text(""));
    expect(
        "mouth-splits",
        &text("countersink 13.4").replace("--  ^^^^^^^^^^^^^^^^^^^^^^^^^^ mouth-splits\n", ""),
    );
}

#[test]
fn the_bench_says_what_its_tap_takes() {
    let text = |bench: &str| {
        format!(
            "\
bench saltings {{
  {bench}
}}

part barrel from mouth to tail {{
  blank of acrylic rod 18
  length 60
  outside dia 14
  from mouth {{
    countersink 10.4
    drill 9.3 to 11
    thread M10x0.75 inside to 9
  }}
}}
"
        )
    };
    let rooms = |text: &str| {
        let found = examined(text);
        found.findings.iter().any(|it| it.rule == "no-room-for-tap")
    };
    assert!(!rooms(&text("taps M10x0.75")), "two pitches by default");
    assert!(!rooms(&text("taps M10x0.75 lead 2")));
    assert!(rooms(&text("taps M10x0.75 lead 2.5")));
}

/// 76.98/P·(D − d), the definition of percent of thread by 3H/4: 76.98/0.75·0.3 = 30.8.
#[test]
fn a_tap_drill_is_judged_by_its_percent_and_the_benchs_best_offered() {
    let found = examined(
        "\
bench saltings {
  drills 9..10 step 0.1
}

part barrel from mouth to tail {
  blank of acrylic rod 18
  length 60
  outside dia 14
  from mouth {
    countersink 10.4
    drill 9.7 to 14
    thread M10x0.75 inside to 9
  }
}
",
    );
    assert!(message(&found, "off-tap-drill").contains("31 % of 3H/4 (37 % of 5H/8)"));
    let finding = found
        .findings
        .iter()
        .find(|it| it.rule == "off-tap-drill")
        .unwrap();
    assert_eq!(
        finding.fixes[0].edits[0].text, "9.3",
        "the bench has no 9.25"
    );
}

/// ISO 965-1: M10 x 0.75 - 6g, es −0.022, Td 0.140.
#[test]
fn a_tenon_is_held_to_the_limits_of_its_class() {
    let text = |tenon: &str| {
        format!(
            "part section from tip to shank {{\n  blank of acrylic rod 13\n  length 30\n  outside \
             dia 11\n  from shank {{\n    tenon {tenon} for 8\n    thread M10x0.75 outside for 6\n  \
             }}\n}}\n"
        )
    };
    for (tenon, fits) in [
        ("9.837", false),
        ("9.838", true),
        ("9.978", true),
        ("9.979", false),
    ] {
        let found = examined(&text(tenon)).findings;
        assert_eq!(
            found.iter().all(|it| it.rule != "off-tenon"),
            fits,
            "{tenon}"
        );
    }
    assert!(message(&examined(&text("9.8")), "off-tenon").contains("9.838 to 9.978 mm"));
}

#[test]
fn a_class_that_no_standard_has_is_a_bad_designation() {
    let text = |class: &str| {
        format!(
            "thread joint = M10x0.75{class}\n\npart section from tip to shank {{\n  blank of acrylic rod 13\n  \
             length 30\n  outside dia 11\n  from shank {{\n    tenon 9.9 for 8\n    thread joint outside for \
             6\n  }}\n}}\n"
        )
    };
    for (class, good) in [("", true), ("-6g", true), ("-6H/6g", true), ("-5h", false)] {
        let found = examined(&text(class)).findings;
        assert_eq!(
            found.iter().all(|it| it.rule != "bad-designation"),
            good,
            "{class}: {found:?}"
        );
    }
}

/// By hand: the shoulder stands 8 from the face, so the thread lies 2 to 8 deep in the barrel, 6 mm.
/// A die's lead-in of 5 leaves full form to 3 from the face: 3 mm, 4 pitches of 0.75. The hole ends
/// at 12, so a tap's lead-in of 8 leaves full form to 4 deep: 2 mm, 2.7 pitches.
#[test]
fn what_the_tools_cut_incomplete_does_not_hold() {
    let text = |tools: &str| {
        format!(
            "\
thread joint = M10x0.75

bench saltings {{
  {tools}
}}

part section from tip to shank {{
  blank of acrylic rod 13
  length 30
  outside dia 11.4
  from shank {{
    tenon for 8
    thread joint outside for 6
    relief 9 for 2 at 6
  }}
}}

part barrel from mouth to tail {{
  blank of acrylic rod 18
  length 60
  outside dia 14
  from mouth {{
    drill 9.25 to 12
    thread joint inside to 9
  }}
}}

pen plain {{
  screw section.shank into barrel.mouth
}}
"
        )
    };
    let short = |tools: &str| {
        let found = examined(&text(tools));
        let short = |it: &&quillet_syntax::Finding| it.rule == "short-engagement";
        found
            .findings
            .iter()
            .find(short)
            .map(|it| it.message.clone())
    };
    assert_eq!(
        short("taps M10x0.75 lead 2\n  dies M10x0.75 lead 1.8"),
        None
    );
    // 2.3 mm of M10x0.75 in acrylic bear 400 N: 1.8 mm of lead-in more than are needed leave 3.
    assert_eq!(short("dies M10x0.75 lead 5"), None);
    let by_die = short("dies M10x0.75 lead 6").unwrap();
    assert!(
        by_die.starts_with("2.00 mm of thread lies in the other and bears about "),
        "{by_die}"
    );
    assert!(
        by_die.ends_with("takes 4.00 mm: the bench's die)"),
        "{by_die}"
    );
    let by_tap = short("taps M10x0.75 lead 8").unwrap();
    assert!(
        by_tap.starts_with("2.00 mm of thread lies in the other and bears about "),
        "{by_tap}"
    );
}
