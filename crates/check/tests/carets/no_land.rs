//! Edges broken by as much as their land is long.

use crate::{expect, finding, message};

/// A part ⌀14 with these lines in its block of cuts at the top.
fn plug(length: f64, cuts: &str) -> String {
    format!(
        "part plug from top to tail {{\n  blank of brass rod 18\n  length {length}\n  outside dia 14\n  from top {{\n{cuts}  }}\n}}\n"
    )
}

fn told(found: &str) -> String {
    format!("--  {} sliver\n", "^".repeat(found.len()))
}

/// A chamfer of 2 on a tenon 2 long ends where the relief behind begins: 45° of metal is left there. One
/// of 1.95 leaves 0.05 of land, less than the 0.1 of a tool; one of 1.9 leaves that.
#[test]
fn a_chamfer_as_long_as_its_land() {
    for (leg, land, behind) in [
        ("2", "2", "relief 9 for 3 at 2"),
        ("1.3", "1.3", "relief 9 for 3 at 1.3"),
        // A step that rises leaves a cone and no tenon.
        ("2", "2", ""),
        ("1.3", "1.3", ""),
    ] {
        let edge = format!("chamfer {leg}");
        let cuts = format!(
            "    tenon 12 for {land}\n    {behind}\n    {edge}\n{}",
            told(&edge)
        );
        let found = expect("sliver", &plug(40.0, &cuts));
        let it = message(&found, "sliver");
        assert!(it.contains(&format!("{land} mm from the top")), "{it}");
        assert!(it.starts_with("this chamfer leaves no land"), "{it}");
    }
    for (leg, land) in [("1.9", "2"), ("1.2", "1.3")] {
        let cuts =
            format!("    tenon 12 for {land}\n    relief 9 for 3 at {land}\n    chamfer {leg}\n");
        expect("sliver", &plug(40.0, &cuts));
    }
}

/// On a ring 4 long two chamfers of 2 meet in the middle; of 2 and 1.9 they leave 0.1.
#[test]
fn two_edges_that_meet_on_a_land() {
    for (length, one, other, left) in [
        (4.0, "chamfer 2", "chamfer 2", false),
        (4.0, "chamfer 2", "chamfer 1.9", true),
        (3.2, "round 1.2", "chamfer 2", false),
        (3.2, "round 1.2", "chamfer 1.9", true),
        // Two rounds run on into each other.
        (3.2, "round 1.6", "round 1.6", true),
    ] {
        let caret = if left { String::new() } else { told(one) };
        let cuts =
            format!("    drill 5 through\n    {one}\n{caret}  }}\n  from tail {{\n    {other}\n");
        expect("sliver", &plug(length, &cuts));
    }
}

/// (9 − 5) / 2 / tan 45° = 2 from each face of a ring 4 long; of ⌀8.8 it is 1.9. At 82°:
/// (8 − 5) / 2 / tan 41° = 1.7256, twice that 3.451.
#[test]
fn two_countersinks_that_meet_in_a_hole() {
    for (length, sink, other, left) in [
        (4.0, "countersink 9", "countersink 9", false),
        (4.0, "countersink 9", "countersink 8.8", true),
        (4.0, "countersink 9", "countersink 9.4", false),
        (
            3.45,
            "countersink 8 angle 82",
            "countersink 8 angle 82",
            false,
        ),
        (
            3.56,
            "countersink 8 angle 82",
            "countersink 8 angle 82",
            true,
        ),
    ] {
        let caret = if left { String::new() } else { told(sink) };
        let cuts =
            format!("    drill 5 through\n    {sink}\n{caret}  }}\n  from tail {{\n    {other}\n");
        expect("sliver", &plug(length, &cuts));
    }
}

/// ⌀14 chamfered by 7 is a point; by 6.9 it keeps a face of 0.2. A round of 7 is a ball.
#[test]
fn a_chamfer_that_takes_the_whole_face() {
    let edge = "chamfer 7";
    let found = expect(
        "sliver",
        &plug(40.0, &format!("    {edge}\n{}", told(edge))),
    );
    assert_eq!(
        message(&found, "sliver"),
        "this chamfer leaves no face at the top: it comes to a point"
    );
    expect("sliver", &plug(40.0, "    chamfer 6.9\n"));
    expect("sliver", &plug(40.0, "    round 7\n"));
}

/// What is proposed leaves the least land.
#[test]
fn it_is_proposed_to_break_less() {
    let found = expect(
        "sliver",
        &plug(
            40.0,
            "    tenon 12 for 2\n    relief 9 for 3 at 2\n    chamfer 2\n--  ^^^^^^^^^ sliver\n",
        ),
    );
    let titles: Vec<String> = finding(&found, "sliver")
        .fixes
        .iter()
        .map(|it| it.title.to_string())
        .collect();
    assert_eq!(titles, ["break it by 1.9"]);
}

/// A taper that ends wider than the hole behind it steps down by half the difference, and is no land of
/// nothing: ⌀10 over ⌀9.5 by 0.25, over ⌀9.98 by the 0.01 that a tool leaves, over ⌀9.99 by less.
#[test]
fn a_taper_may_end_in_a_step() {
    for (drill, step) in [
        ("9.5", None),
        ("9.98", None),
        ("9.99", Some("0.005 mm")),
        ("9.996", Some("0.002 mm")),
    ] {
        let taper = "taper 12 to 10 for 20";
        let carets = step.map_or(String::new(), |_| told(taper));
        let cuts = format!("    {taper}\n{carets}    drill {drill} to 30\n");
        let found = expect("sliver", &plug(60.0, &cuts));
        if let Some(step) = step {
            let it = message(&found, "sliver");
            assert!(
                it.contains(&format!(
                    "makes a step of {step} a side, 20 mm from the top"
                )),
                "{it}"
            );
        }
    }
    // And one that is no longer than a tool's nose is told of by its length.
    let taper = "taper 12 to 10 for 0.05";
    let cuts = format!("    {taper}\n{}    drill 9.5 to 30\n", told(taper));
    let found = expect("sliver", &plug(60.0, &cuts));
    assert!(message(&found, "sliver").contains("0.05 mm wide"));
    expect(
        "sliver",
        &plug(60.0, "    taper 12 to 10 for 0.1\n    drill 9.5 to 30\n"),
    );
}
