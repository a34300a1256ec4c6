//! What is drilled into a joint, and what is to pass through it.

use super::{found, peg, reported};

/// A sleeve on a tenon with a broken edge: the throat is the sleeve's bore behind its own broken
/// edge, and what has to pass is the tenon behind its.
#[test]
fn what_wont_pass_is_told_at_its_largest_and_the_throat_at_its_narrowest() {
    let slip = "slip peg.front into tube.mouth";
    for (dia, bore) in [("8.91", "8.2"), ("12", "11.5")] {
        for (edge, mouth) in [
            ("", ""),
            ("from front {\n chamfer 0.6\n}", ""),
            ("", "from mouth {\n countersink 13\n}"),
            (
                "from front {\n chamfer 0.6\n}",
                "from mouth {\n countersink 13\n}",
            ),
        ] {
            let text = peg(slip, dia, bore, edge, mouth);
            let found = found(&text, &["wont-pass", "stops-early"]);
            let [finding] = found.as_slice() else {
                panic!("{found:#?}\n{text}");
            };
            let (fat, throat): (f64, f64) = (dia.parse().unwrap(), bore.parse().unwrap());
            let wanted = format!("peg (⌀{fat:.2}) won't pass tube's ⌀{throat:.2} bore");
            assert_eq!(finding.message.to_string(), wanted);
        }
    }
}

#[test]
fn a_hole_that_a_thread_needs_is_never_widened() {
    let text = "\
thread joint = M10x0.75

part tube from mouth to end {
  blank of acrylic rod 20
  length 60
  outside dia 18
  from mouth {
    drill 9.3 to 20
    thread joint inside to 9
    drill 7 to 50
  }
}

part neck from front to back {
  blank of acrylic rod 20
  length 30
  outside {
    at 0  dia 9.9
    at 8  dia 9.9 step 18 as ledge
    at 30 dia 18
  }
  from front {
    thread joint outside for 8
    bore 7.5 to 12
  }
}

bought rod from tip to heel {
  length 40
  mass 1
  outside dia 9.5
}

pen test {
  slip rod.tip into tube.mouth
}
";
    let found = found(text, &["wont-pass"]);
    let hint = found[0]
        .hint
        .as_ref()
        .map(ToString::to_string)
        .unwrap_or_default();
    assert!(hint.contains("joint thread needs this hole"), "{hint}");
    let widens = |fix: &quillet_syntax::Fix| fix.title.contains("make it");
    assert!(!found[0].fixes.iter().any(widens), "{found:#?}");
}

#[test]
fn a_hole_from_the_mouth_that_reaches_the_crowns_thread_is_told_with_how_deep_it_may_go() {
    // 60 long, the thread 7 in from the crown: its inner end at 53; the point of a 12.2 drill is
    // 3.665 long and reaches a radius of 4.5 at 0.961 beyond its depth.
    let cap = |deep: &str| {
        format!(
            "part cap from mouth to crown {{\n blank of acrylic rod 18\n length 60\n outside dia 16\n from mouth {{\n drill 12.2 to {deep}\n}}\n\
                 from crown {{\n drill 8.3 to 10\n thread M9x0.75 inside to 7\n}}\n}}\n"
        )
    };
    let rules = ["thread-cut-away", "off-tap-drill"];
    for (deep, wanted) in [
        ("49", &[][..]),
        ("52", &[]),
        ("52.1", &["thread-cut-away"]),
        ("55", &["thread-cut-away"]),
        ("60", &["thread-cut-away"]),
    ] {
        assert_eq!(reported(&cap(deep), &rules), wanted, "{deep}");
    }
    let found = found(&cap("55"), &rules);
    let hint = found[0].hint.as_ref().unwrap().to_string();
    assert_eq!(
        hint,
        "take the ⌀12.20 drill to 49.3 at most, or cut the thread less deep"
    );
}

#[test]
fn a_land_behind_a_thread_is_named_with_what_to_bore() {
    let text = |mouth: &str| {
        format!(
            "thread housing = M7.4x0.5\n\
             bought unit from point to heel {{\n length 30\n mass 2\n outside {{\n at 0 dia 8\n at 10 dia 8 step 9\n at 11 dia 9 step 8 as collar\n at 11.4 dia 8 step 7.4\n at 18 dia 7.4 step 6\n at 30 dia 6\n}}\n\
             from heel {{\n thread housing outside for 6.6 at 12\n}}\n}}\n\
             part section from tip to shank {{\n blank of acrylic rod 16\n length 30\n outside dia 13\n from tip {{\n {mouth}\n drill 6.9 to 12\n thread housing inside to 9\n drill 6.3 through\n}}\n}}\n\
             pen test {{\n screw unit.heel into section.tip {{\n seat unit.collar on section.rest\n }}\n}}\n"
        )
    };
    // The thread begins where the land meets it, at the mouth or behind a plain one.
    for begins in ["inside to 9", "inside to 8 at 1"] {
        let text = text("bore 9.2 to 1 as rest").replace("inside to 9", begins);
        let stopped = found(&text, &["stops-early", "wont-pass"]);
        let [finding] = stopped.as_slice() else {
            panic!("{stopped:#?}");
        };
        let message = finding.message.to_string();
        assert!(
            message.contains(
                "the plain ⌀8.00 land of unit, 0.40 mm long behind its thread, enters section's thread"
            ),
            "{message}"
        );
        // The collar seats 1 in, the land 0.4 further.
        assert_eq!(
            finding.hint.as_ref().unwrap().to_string(),
            "bore section.tip plain, 8.1 to 1.4, and let the thread begin there"
        );
    }
    assert!(
        reported(
            &text("bore 9.2 to 1 as rest\n bore 8.1 to 1.4"),
            &["stops-early", "wont-pass"]
        )
        .is_empty()
    );
}

#[test]
fn holes_that_do_not_meet_are_told_where_ink_is_to_pass() {
    // 80 long. The points take 2.40 (⌀8) and 2.49 (⌀8.3).
    let text = |front: f64, rear: f64, verb: &str, fill: &str| {
        format!(
            "thread tail = M9x0.75\n\
             part barrel from mouth to end {{\n blank of acrylic rod 20\n length 80\n outside dia 16\n from mouth {{\n drill 8.3 to 14\n thread tail inside to 9\n drill 8 to {front}\n}}\n\
             from end {{\n drill 8.3 to {rear}\n thread tail inside to 9\n}}\n}}\n\
             part plug from shank to tip {{\n blank of acrylic rod 20\n length 20\n outside {{\n at 8 dia 16\n at 20 dia 16\n}}\n from shank {{\n tenon 8.9 for 8\n thread tail outside for 6\n relief 8 for 2 at 6\n}}\n}}\n\
             part stopper like plug\n\
             pen test {{\n screw plug.shank into barrel.mouth\n {verb} stopper.shank into barrel.end\n {fill}\n}}\n"
        )
    };
    let rules = ["solid-between"];
    assert_eq!(
        reported(&text(50.0, 20.0, "screw", "fill barrel"), &rules),
        rules
    );
    assert_eq!(
        reported(&text(60.5, 20.0, "screw", "fill barrel"), &rules),
        [""; 0]
    );
    // Nothing is to pass where it holds no ink.
    assert_eq!(reported(&text(50.0, 20.0, "screw", ""), &rules), [""; 0]);
    let shown = found(&text(50.0, 20.0, "screw", "fill barrel"), &rules);
    let edit = &shown[0].fixes[0];
    assert_eq!(edit.title.to_string(), "take barrel's ⌀8.00 drill to 60");
}
