use crate::{expect, expect_no_more, finding, message};
use quillet_syntax::Severity;

/// A mouth of 14.4 over a hole, with these lines in its block of cuts.
fn mouth(cuts: &str) -> String {
    format!(
        "\
part cap from mouth to crown {{
  blank of acrylic rod 18
  length 60
  outside dia 14.4
  from mouth {{
{cuts}  }}
}}
"
    )
}

#[test]
fn a_countersink_stays_within_the_outside() {
    for (size, caret) in [
        ("15.0", true),
        ("14.4", true),
        ("131", true),
        ("13.9", false),
    ] {
        let under = match caret {
            true => format!("--  {} out-of-range\n", "^".repeat(12 + size.len())),
            false => String::new(),
        };
        let cuts = format!("    drill 12.2 to 50\n    countersink {size}\n{under}");
        let found = expect("out-of-range", &mouth(&cuts));
        if size == "15.0" {
            let written = message(&found, "out-of-range");
            assert_eq!(
                written,
                "this countersink cuts through the wall at the mouth: it is ⌀15.00 where the outside is ⌀14.40"
            );
        }
    }
}

#[test]
fn a_broken_corner_is_smaller_than_the_wall() {
    for (edge, caret) in [
        ("chamfer 4.0", true),
        ("round 2.7", true),
        ("chamfer 2.6", false),
    ] {
        let under = match caret {
            true => format!("--  {} out-of-range\n", "^".repeat(edge.len())),
            false => String::new(),
        };
        let found = expect(
            "out-of-range",
            &mouth(&format!("    drill 9.0 to 50\n    {edge}\n{under}")),
        );
        if edge == "chamfer 4.0" {
            let written = message(&found, "out-of-range");
            assert_eq!(
                written,
                "this chamfer cuts through the wall at the mouth, down to ⌀6.40 where the hole is ⌀9.00"
            );
        }
    }
}

/// 14.4 less twice the chamfer is what a countersink may not reach.
#[test]
fn a_chamfer_and_a_countersink_leave_a_face_between_them() {
    let text = |sink: &str, caret: &str| {
        mouth(&format!(
            "    drill 12.2 to 50\n    countersink {sink}\n{caret}    chamfer 0.6\n"
        ))
    };
    expect("out-of-range", &text("13.1", ""));
    let found = expect(
        "out-of-range",
        &text("13.2", "--  ^^^^^^^^^^^^^^^^ out-of-range\n"),
    );
    let written = message(&found, "out-of-range");
    assert_eq!(
        written,
        "this countersink and the chamfer meet: no face is left between them at the mouth"
    );
    assert_eq!(
        finding(&found, "out-of-range").labels.len(),
        1,
        "the chamfer is shown"
    );
}

/// Broken where the outside itself is told, and at the other end.
#[test]
fn the_corner_of_a_station_is_an_edge_too() {
    expect(
        "out-of-range",
        "\
part sleeve from front to back {
  blank of brass rod 18
  length 20
  outside {
    at 0  dia 14
    at 20 dia 14 chamfer 2.2
--  ^^^^^^^^^^^^^^^^^^^^^^^^ out-of-range
  }
  from front {
    drill 10 through
  }
}
",
    );
}

/// The roots of an outside thread are what a countersink under it must stay within: M12 × 1 has
/// them at 12 − 17/24·√3 = 10.77.
#[test]
fn a_countersink_under_a_thread_stays_within_its_roots() {
    let text = |sink: &str, caret: &str| {
        format!(
            "\
part plug from tip to end {{
  blank of brass rod 18
  length 30
  outside dia 14
  from end {{
    tenon 11.9 for 8
    thread M12x1 outside for 8
    drill 7.0 to 20
    countersink {sink}
{caret}  }}
}}
"
        )
    };
    expect("out-of-range", &text("10.7", ""));
    expect(
        "out-of-range",
        &text("10.8", "--  ^^^^^^^^^^^^^^^^ out-of-range\n"),
    );
}

#[test]
fn a_bought_bore_is_narrower_than_what_is_round_it() {
    let text = |bore: &str, caret: &str| {
        format!(
            "\
bought converter \"Converter\" from mouth to end {{
  length 73
  mass 2.8
  outside {{
    at 0  dia 7.4
    at 20 dia 7.4
    at 73 dia 5
  }}
  from mouth {{
    bore {bore} to 40
{caret}  }}
}}
"
        )
    };
    expect("out-of-range", &text("6.2", ""));
    expect(
        "out-of-range",
        &text("42", "--  ^^^^^^^^^^^^^ out-of-range\n"),
    );
    // 7.4 − 2.4 · 20/53 = 6.49 across where the bore ends.
    let found = expect(
        "out-of-range",
        &text("6.6", "--  ^^^^^^^^^^^^^^ out-of-range\n"),
    );
    let written = message(&found, "out-of-range");
    assert_eq!(
        written,
        "this bore is ⌀6.60, wider than the part it is in, which is ⌀6.49 there"
    );
}

#[test]
fn nothing_bought_weighs_less_than_nothing() {
    expect(
        "out-of-range",
        "\
bought converter \"Converter\" from mouth to end {
  length 73
  mass -2.8
--     ^^^^ out-of-range
  outside dia 7.4
}
",
    );
}

/// Whatever is bored at the mouth or goes on beyond, the hole that leaves nothing is to blame.
#[test]
fn a_hole_as_wide_as_its_thread_is_to_blame() {
    for (hole, thread, beyond) in [
        ("10.1", "M10x0.75", "    drill 8.0 to 40\n"),
        ("10.0", "M10x1", ""),
        ("11.2", "7/16-28UNEF starts 2", "    drill 6.0 through\n"),
    ] {
        let cuts = format!(
            "    countersink 12\n    drill {hole} to 16\n--        ^^^^ off-tap-drill\n{beyond}    thread {thread} inside to 9\n"
        );
        let found = expect_no_more(&mouth(&cuts));
        assert_eq!(found.findings[0].severity, Severity::Error);
    }
}

/// A mouth wider than the thread leaves all of it that lies behind.
#[test]
fn a_wider_mouth_before_a_thread_is_no_fault() {
    expect(
        "off-tap-drill",
        &mouth("    bore 10.2 to 3\n    drill 9.3 to 14\n    thread M10x0.75 inside to 9\n"),
    );
}

#[test]
fn a_thread_of_which_nothing_is_left_is_an_error() {
    let found = expect(
        "cuts-nothing",
        "\
part shank from tip to end {
  blank of brass rod 18
  length 30
  outside dia 14
  from end {
    relief 8.5 for 8
    thread M10x1 outside for 8
--  ^^^^^^^^^^^^^^^^^^^^^^^^^^ cuts-nothing
--  ^^^^^^^^^^^^^^^^^^^^^^^^^^ off-tenon
  }
}
",
    );
    let nothing = found.findings.iter().find(|it| it.rule == "cuts-nothing");
    assert_eq!(nothing.unwrap().severity, Severity::Error);
}
