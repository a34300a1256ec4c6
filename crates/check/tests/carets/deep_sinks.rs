//! Countersinks that go too deep, edges that run into a thread, holes as wide as what is bought.

use crate::{expect, message, tried};
use quillet_syntax::Severity;

/// A part ⌀16 by 50 with these lines in its block of cuts.
fn plug(cuts: &str) -> String {
    format!(
        "part plug from top to end {{\n  blank of brass rod 18\n  length 50\n  outside dia 16\n  from top {{\n{cuts}  }}\n}}\n"
    )
}

/// A cone of A degrees is as wide as a hole of d at (D − d) / 2 / tan(A / 2).
#[test]
fn a_countersink_ends_before_its_hole_does() {
    for (hole, sink, deep) in [
        // (11 − 9) / 2 / tan 2° = 28.636 of 28.6 and of 28.7.
        ("drill 9 to 28.6", "countersink 11 angle 4", Some("28.64")),
        ("drill 9 to 28.7", "countersink 11 angle 4", None),
        // (12.5 − 8) / 2 / tan 45° = 2.25.
        ("bore 8 to 2.2", "countersink 12.5", Some("2.25")),
        ("bore 8 to 2.3", "countersink 12.5", None),
        // (14 − 10) / 2 / tan 2.2° = 52.063, more than the part is long; at 2.3° 49.796.
        (
            "drill 10 through",
            "countersink 14 angle 4.4",
            Some("52.06"),
        ),
        ("drill 10 through", "countersink 14 angle 4.6", None),
    ] {
        let carets = match deep {
            Some(_) => format!("--  {} out-of-range\n", "^".repeat(sink.len())),
            None => String::new(),
        };
        let found = expect(
            "out-of-range",
            &plug(&format!("    {hole}\n    {sink}\n{carets}")),
        );
        if let Some(deep) = deep {
            let told = message(&found, "out-of-range");
            assert!(told.contains(&format!("goes in {deep} mm")), "{told}");
        }
    }
}

/// As long as one of several holes is left behind the cone, it breaks a mouth; a hole from the other end
/// counts where it comes through.
#[test]
fn a_countersink_is_held_against_every_hole_that_opens_there() {
    expect(
        "out-of-range",
        &plug("    bore 9 to 0.5\n    drill 8 to 20\n    countersink 10.2\n"),
    );
    expect(
        "out-of-range",
        &plug("    countersink 8.4\n  }\n  from end {\n    drill 8 through\n"),
    );
    let found = expect(
        "out-of-range",
        &plug(
            "    countersink 8.4 angle 59\n--  ^^^^^^^^^^^^^^^^^^^^^^^^ out-of-range\n  }\n  from end {\n    drill 8 to 30\n",
        ),
    );
    // 4.2 / tan 29.5° = 7.42.
    assert_eq!(
        message(&found, "out-of-range"),
        "at 59° this countersink goes 7.42 mm into the solid: no hole opens at the top for it to break"
    );
    // A seat for a ball is a cone in the solid.
    expect(
        "out-of-range",
        &plug("    countersink 8.4\n  }\n  from end {\n    drill 8 to 30\n"),
    );
}

#[test]
fn an_angle_that_slipped_is_left_out() {
    let found = tried(&plug("    drill 9 to 20\n    countersink 9.8 angle 1\n"));
    let sink = found.iter().find(|it| it.rule == "out-of-range").unwrap();
    let titles: Vec<String> = sink.fixes.iter().map(|fix| fix.title.to_string()).collect();
    assert_eq!(titles[0], "leave the angle out, for 90°");
}

/// The cone of a countersink sharper than 60° is a wall: (16 − 15) / 2 = 0.5 mm at the mouth, in brass
/// enough, in acrylic not.
#[test]
fn a_sharp_cone_is_a_wall() {
    for (angle, told) in [("60", false), ("59", true), ("20", true)] {
        let cuts = format!("    drill 12 to 40\n    countersink 15 angle {angle}\n");
        let text = plug(&cuts).replace("brass", "acrylic");
        let found = crate::examined(&text);
        let walls = found.findings.iter().filter(|it| it.rule == "thin-wall");
        assert_eq!(walls.count() > 0, told, "{angle}");
    }
}

/// A tap hole of 9.3 in M10 × 0.75 leaves crests of 9.3; the cone from ⌀10.6 is that wide at
/// 0.65 / tan(A / 2): 1.517 mm at 46.4°, 1.499 at 46.9°; two pitches are 1.5.
#[test]
fn a_broken_edge_takes_two_pitches_of_a_thread() {
    for (angle, told) in [("46.4", Some("1.52 mm")), ("46.9", None)] {
        let sink = format!("countersink 10.6 angle {angle}");
        let carets = match told {
            Some(_) => format!("--  {} thread-cut-away\n", "^".repeat(sink.len())),
            None => String::new(),
        };
        let found = expect(
            "thread-cut-away",
            &plug(&format!(
                "    drill 9.3 to 14\n    thread M10x0.75 inside to 9\n    {sink}\n{carets}"
            )),
        );
        if let Some(told) = told {
            let it = crate::finding(&found, "thread-cut-away");
            assert!(it.message.contains(told), "{}", it.message);
            assert_eq!(it.severity, Severity::Warning);
        }
    }
}

/// A chamfer of 45° takes of its thread what it is wide: two pitches of M12 × 1 are 2 mm.
#[test]
fn a_chamfer_takes_two_pitches_of_a_thread() {
    for (chamfer, carets) in [("2.0", ""), ("2.1", "--  ^^^^^^^^^^^ thread-cut-away\n")] {
        expect(
            "thread-cut-away",
            &plug(&format!(
                "    tenon 11.9 for 10\n    thread M12x1 outside for 8\n    chamfer {chamfer}\n{carets}"
            )),
        );
    }
}

/// A drill's point is no needle.
#[test]
fn a_point_is_ground_to_sixty_degrees_at_the_least() {
    for (point, carets) in [
        ("60", ""),
        ("59", "--                      ^^ out-of-range\n"),
    ] {
        expect(
            "out-of-range",
            &plug(&format!("    drill 8 to 20 point {point}\n{carets}")),
        );
    }
}

/// What is bought has metal round its holes and under its threads.
#[test]
fn a_bought_part_has_metal_round_its_hole() {
    let text = |outside: &str, cut: &str, told: bool| {
        let carets = match told {
            true => format!("--  {} out-of-range\n", "^".repeat(cut.len())),
            false => String::new(),
        };
        format!(
            "bought bush \"Bush\" from mouth to end {{\n  length 20\n  mass 1\n  {outside}\n  from mouth {{\n    {cut}\n{carets}  }}\n}}\n"
        )
    };
    let tube = "outside dia 9";
    expect("out-of-range", &text(tube, "bore 8.99 to 12", false));
    let found = expect("out-of-range", &text(tube, "bore 9.0 to 12", true));
    assert_eq!(
        message(&found, "out-of-range"),
        "this bore is ⌀9.00, as wide as the part it is in, which is ⌀9.00 there"
    );
    expect("out-of-range", &text(tube, "bore 9.0 through", true));
    // M8 in ⌀8 leaves nothing over its roots; M7.5 does.
    let tube = "outside dia 8";
    expect(
        "out-of-range",
        &text(tube, "thread M8x0.75 inside to 6", true),
    );
    expect(
        "out-of-range",
        &text(tube, "thread M9x0.75 inside to 6", true),
    );
    expect(
        "out-of-range",
        &text(tube, "thread M7x0.75 inside to 6", false),
    );
    // A mouth may be sharp: a cone that begins as wide as its bore.
    let cone = "outside {\n    at 0  dia 6\n    at 20 dia 10\n  }";
    expect("out-of-range", &text(cone, "bore 6.0 to 15", false));
}

/// A cone of 3° is still ⌀7.78 at 50 (10.4 − 2 · 50 · tan 1.5°), where a dome comes to nothing.
#[test]
fn a_cone_that_goes_through_the_far_end_is_told_by_its_angle() {
    let found = expect(
        "out-of-range",
        "part plug from top to end {
  blank of brass rod 18
  length 50
  outside {
    at 0   dia 16
    at 44  dia 12
    at end dia 0 dome
  }
  from top {
    drill 9.3 to 20
    drill 8 to 40
    countersink 10.4 angle 3
--  ^^^^^^^^^^^^^^^^^^^^^^^^ out-of-range
  }
}
",
    );
    let finding = found.findings.iter().find(|it| it.rule == "out-of-range");
    let hint = finding.and_then(|it| it.hint.clone()).unwrap();
    assert!(hint.starts_with("leave the angle out, for 90°"), "{hint}");
}
