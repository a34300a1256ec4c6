use crate::{examined, expect, expect_no_more, finding, message};
use quillet_syntax::Severity;

/// (12 − 17/24·√3·0.8 − 10)/2 = 0.509: the worked conflict of two threads in a barrel.
#[test]
fn thread_over_thread_says_both_and_the_wall() {
    let found = expect(
        "thin-wall",
        "\
part barrel from mouth to tail {
  blank of acrylic rod 18
  length 40
  outside dia 14
  from mouth {
    tenon 11.9 for 8
    thread M12x0.8 outside for 5
    countersink 10.4
    drill 9.0 to 15
    thread M10x1 inside to 9
--  ^^^^^^^^^^^^^^^^^^^^^^^^ thin-wall
  }
}
",
    );
    let written = message(&found, "thin-wall");
    assert!(
        written.starts_with(
            "0.51 mm of wall between the M12x0.8 thread's root (⌀11.02) and the M10x1 thread \
             (⌀10.00); 0.8 mm wanted, thread over thread in acrylic"
        ),
        "{written}"
    );
    assert_eq!(finding(&found, "thin-wall").severity, Severity::Warning);
    assert_eq!(finding(&found, "thin-wall").labels.len(), 1);
}

#[test]
fn a_stack_is_judged_by_the_material_at_the_place() {
    let text = |second: &str| {
        format!(
            "\
part barrel from mouth to tail {{
  blank of acrylic rod 16 to 30
  blank of {second} rod 16
  length 60
  outside {{
    at 0  dia 13
    at 30 dia 13 step 11.8
    at 60 dia 11.8
  }}
  from mouth {{
    drill 10.8 to 50
"
        )
    };
    expect("thin-wall", &(text("brass") + "  }\n}\n"));
    expect(
        "thin-wall",
        &(text("chalk-free").replace("chalk-free", "polyester-resin")
            + "--  ^^^^^^^^^^^^^^^^ thin-wall\n  }\n}\n"),
    );
}

#[test]
fn seats_of_rings_are_no_walls() {
    let text = |takes: &str, caret: &str| {
        format!(
            "\
bought o-ring {{
  ring 7 by 1
}}

part section from tip to shank {{
  blank of acrylic rod 13
  length 30
  outside dia 11
  from shank {{
    tenon 9.9 for 8
    groove 8.2 for 1.2 at 6{takes}
    drill 7.4 to 16
{caret}  }}
}}
"
        )
    };
    expect("thin-wall", &text(" takes o-ring", ""));
    expect("thin-wall", &text("", "--  ^^^^^^^^^^^^^^^ thin-wall\n"));
}

#[test]
fn a_drill_that_comes_out_at_the_end_is_broken_through_once() {
    expect_no_more(
        "\
part barrel from mouth to tail {
  blank of acrylic rod 16
  length 60
  outside dia 13
  from mouth {
    drill 8 to 59
--  ^^^^^^^^^^^^^ broken-through
  }
}
",
    );
    expect_no_more(
        "\
part barrel from mouth to tail {
  blank of acrylic rod 16
  length 60
  outside dia 13
  from mouth {
    drill 8 through
  }
}
",
    );
}

#[test]
fn drills_from_both_ends_that_meet_at_their_points_are_broken_through() {
    let found = expect(
        "broken-through",
        "\
part barrel from mouth to tail {
  blank of acrylic rod 16
  length 60
  outside dia 13
  from mouth {
    drill 8 to 30
  }
  from tail {
    drill 8 to 26
--  ^^^^^^^^^^^^^ broken-through
  }
}
",
    );
    assert!(message(&found, "broken-through").contains("4 mm between"));
}

#[test]
fn a_closed_flat_end_is_measured_to_its_face() {
    let found = expect(
        "thin-end",
        "\
part cap from mouth to crown {
  blank of acrylic rod 18
  length 60
  outside dia 16
  from mouth {
    bore 12 to 59
--  ^^^^^^^^^^^^^ thin-end
  }
}
",
    );
    assert!(message(&found, "thin-end").starts_with("1.00 mm left"));
}

/// What is left under the pole is the pole's station less the depth and the cone of 118°, the
/// radius over tan 59°, though the corner of the cone is nearer to the side: 60 − 54.9 − 3.605, and
/// a tenth more.
#[test]
fn the_pole_is_judged_though_the_corner_is_nearer_the_side() {
    let outsides = [
        ("mouth", "at 0 dia 15 ; at 54 dia 15 ; at 60 dia 0 dome"),
        ("mouth", "at 0 dia 14.8 ; at 54 dia 14.8 ; at 60 dia 0 dome"),
        ("crown", "at 0 dia 0 ; at 6 dia 15 dome ; at 60 dia 15"),
    ];
    for (end, outside) in outsides {
        for (depth, caret) in [("54.9", "--  ^^^^^^^^^^^^^^^^ thin-end\n"), ("54.8", "")] {
            let found = expect(
                "thin-end",
                &format!(
                    "\
part cap from mouth to crown {{
  blank of acrylic rod 18
  length 60
  outside {{ {outside} }}
  from {end} {{
    drill 12 to {depth}
{caret}  }}
}}
"
                ),
            );
            if !caret.is_empty() {
                let written = message(&found, "thin-end");
                assert!(
                    written.starts_with("1.49 mm left between the point"),
                    "{written}"
                );
            }
        }
    }
}

/// A flat bottom has no point: its middle is judged, and its corner where that looks along the axis.
/// The dome 4 long on 15 stands 4 · √(1 − (4.5/7.5)²) = 3.2 beyond its foot over a corner at 4.5.
#[test]
fn the_middle_and_the_corner_of_a_flat_bottom_are_judged() {
    for (bore, depth, caret) in [
        ("3.0", "58.6", "--  ^^^^^^^^^^^^^^^^ thin-end\n"),
        ("3.0", "58.3", ""),
        ("9.0", "57.9", "--  ^^^^^^^^^^^^^^^^ thin-end\n"),
        ("9.0", "57.2", ""),
    ] {
        expect(
            "thin-end",
            &format!(
                "\
part cap from mouth to crown {{
  blank of acrylic rod 18
  length 60
  outside {{ at 0 dia 15 ; at 56 dia 15 ; at 60 dia 0 dome }}
  from mouth {{
    bore {bore} to {depth}
{caret}  }}
}}
"
            ),
        );
    }
}

/// A lip is judged by what it is cut in, at its radius: brass in the spigot that reaches the mouth.
#[test]
fn a_lip_in_a_spigot_is_judged_as_the_spigot() {
    let thin = |outer: &str, spigot: &str| {
        let found = examined(&format!(
            "\
part barrel from mouth to tail {{
  blank of {outer} rod 16 to 12
  blank of {spigot} rod 16 spigot 13 for 12 gap 0.1
  length 60
  outside {{
    at 0  dia 12
    at 8  dia 12 step 14
    at 60 dia 14
  }}
  from mouth {{
    bore 11.2 to 5
  }}
}}
"
        ));
        found.findings.into_iter().any(|it| it.rule == "thin-wall")
    };
    assert!(!thin("acrylic", "brass"));
    assert!(thin("brass", "acrylic"));
}

/// 0.02 to 0.3 mm on diameter.
#[test]
fn glue_wants_room_and_not_too_much() {
    let found = |gap: &str| {
        let found = examined(&format!(
            "\
part barrel from mouth to tail {{
  blank of brass rod 16 to 20
  blank of acrylic rod 16 spigot 10 for 12{gap}
  length 60
  outside dia 14
}}
"
        ));
        let found = found.findings.into_iter().find(|it| it.rule == "glue-gap");
        found.map(|it| it.message)
    };
    for gap in [" gap 0.02", " gap 0.1", " gap 0.3"] {
        assert_eq!(found(gap), None, "{gap}");
    }
    for gap in ["", " gap 0.019", " gap 0.301", " gap 1"] {
        assert!(found(gap).is_some(), "{gap}");
    }
    assert_eq!(
        found(" gap 1").unwrap(),
        "a gap of 1 mm round the spigot of acrylic is more than glue fills soundly; 0.02 to 0.3 mm \
         on diameter holds"
    );
}
