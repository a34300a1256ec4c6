mod follows;
mod sketch;

use crate::{examined, expect, expect_no_more, message};
use quillet_syntax::{Severity, edited};
use sketch::{RELIEF, pen};

/// The rules that the joints of a text break, in the order of the text.
#[track_caller]
fn broken(text: &str) -> Vec<&'static str> {
    let rules = [
        "stops-early",
        "wont-pass",
        "nib-strikes-cap",
        "too-close-to-call",
        "loose-part",
        "dry-nib",
        "step-under-fingers",
    ];
    let found = examined(text).findings;
    let known = found.iter().map(|it| it.rule.code());
    known.filter(|rule| rules.contains(rule)).collect()
}

#[test]
fn what_reaches_the_end_of_a_hole_is_too_long_not_too_fat() {
    let text = pen(RELIEF, "52", "56");
    assert_eq!(broken(&text), ["stops-early"]);
    let found = examined(&text);
    assert!(
        message(&found, "stops-early").contains("converter's end meets the point of barrel's"),
        "{}",
        message(&found, "stops-early")
    );
    // The converter is 73 long and lies 36.5 - 30 behind the shank: 12.82 short, and half a
    // millimetre of room, to the next half.
    let finding = found.findings.iter().find(|it| it.rule == "stops-early");
    let edit = &finding.unwrap().fixes[0];
    let cured = edited(&text, &edit.edits).unwrap();
    assert_eq!(edit.title, "take barrel's ⌀8.00 drill to 65.5");
    assert_eq!(broken(&cured), [""; 0]);
    // The nib at the end of the cap is told of once, and what follows from it not at all.
    assert_eq!(broken(&pen(RELIEF, "69", "46")), ["nib-strikes-cap"]);
}

/// The nib's point comes to 8 + 22 − 1.2 + 23.7 = 52.5 in the cap, where the cone of 118° is as wide as the
/// nib 2.4635 behind the drill's corner: at 50.0365 both meet. Wherever that is beside the seat, which a
/// cap reaches to a twentieth of a millimetre, the nib is bent.
#[test]
fn a_nib_that_meets_the_cap_just_as_it_closes_is_told_of() {
    for deep in [
        "49.9", "49.98", "49.99", "50", "50.03", "50.0364", "50.04", "50.08", "50.1",
    ] {
        let text = pen(RELIEF, "69", deep);
        assert_eq!(broken(&text), ["nib-strikes-cap"], "{deep}");
        let found = examined(&text).findings;
        let found = found.iter().find(|it| it.rule == "nib-strikes-cap");
        assert_eq!(found.map(|it| it.severity), Some(Severity::Error), "{deep}");
    }
}

/// The converter, 12.82 too long at 52, is as long as there is room at 64.82: a hundredth less and it
/// stops the section, a hundredth more and the worst case does.
#[test]
fn what_stops_a_joint_from_within_stops_it_however_little_is_left() {
    for (deep, wanted) in [
        ("64.75", "stops-early"),
        ("64.78", "stops-early"),
        ("64.81", "stops-early"),
        ("64.83", "too-close-to-call"),
        ("64.86", "too-close-to-call"),
    ] {
        assert_eq!(broken(&pen(RELIEF, deep, "56")), [wanted], "{deep}");
    }
}

#[test]
fn a_cap_that_goes_past_its_seat_is_not_short_of_it() {
    // The relief takes the shoulder at 8 away as far as 15; the cap stops on the nib, behind it.
    let text = pen(RELIEF, "69", "50.5").replace("for 2.5 at 5.5", "for 9.5 at 5.5");
    let found = examined(&text);
    let told = message(&found, "nib-strikes-cap");
    assert!(told.contains("when the cap has gone"), "{told}");
    assert!(
        told.ends_with("mm past its seat") && !told.contains(" -"),
        "{told}"
    );
}

#[test]
fn a_converter_too_fat_for_the_section_is_what_does_not_pass() {
    let text = pen(RELIEF, "69", "56").replace("drill 8.0            to 17", "");
    let found = examined(&text);
    assert_eq!(broken(&text), ["wont-pass"]);
    assert_eq!(
        message(&found, "wont-pass"),
        "converter (⌀7.40) won't pass section's ⌀6.30 drill"
    );
}

#[test]
fn a_material_without_a_kind_is_told_of_once() {
    expect_no_more(
        "\
material box {
  kind hardwood
--     ^^^^^^^^ unknown-name
}

part knob from face to top {
  blank of box rod 16
  length 10
  outside dia 12
}
",
    );
}

/// By hand: 4.0 of travel over a lead of 2.4 is 600°, five spacings of 120°. So the marks are as far
/// apart as the two clocks together, less whole spacings: 50 + 30 is 40 short of 120, 1/9 of a lead.
#[test]
fn marks_that_do_not_meet_are_told_with_the_cut_that_brings_them_there() {
    let text = |cap: &str, barrel: &str| {
        format!(
            "\
thread closing = M13x0.8 starts 3

part cap from mouth to crown {{
  blank of acrylic rod 18
  length 40
  outside dia 15.5
  from mouth {{
    bore 13.1 to 2.5
    thread closing inside to 7.5 at 2.5{cap}
    drill 12.2 to 30
  }}
}}

part barrel from mouth to tail {{
  blank of acrylic rod 18
  length 50
  outside {{
    at 8  dia 14.4 as shoulder
    at 50 dia 14
  }}
  from mouth {{
    tenon for 8
    relief 12 for 1.5
    thread closing outside for 4 at 1.5{barrel}
    relief 12 for 2.5 at 5.5
  }}
}}

pen plain {{
  close cap.mouth onto barrel.mouth {{
    seat cap.mouth on barrel.shoulder
  }}
}}
"
        )
    };
    let reported = |cap: &str, barrel: &str| {
        let found = examined(&text(cap, barrel)).findings;
        let mut of_rule = found
            .into_iter()
            .filter(|it| it.rule == "lettered-out-of-line");
        of_rule.next().map(|it| (it.message, it.hint.unwrap()))
    };
    let (message, hint) = reported(" clock 50", " clock 30").unwrap();
    assert!(message.ends_with("come to rest 40° apart"), "{message}");
    assert!(hint.starts_with("0.267 mm off the shoulder"), "{hint}");
    assert_eq!(reported(" clock 90", " clock 30"), None);
    assert_eq!(reported(" clock 94", " clock 30"), None, "within 5°");
    assert!(reported(" clock 96", " clock 30").is_some());
    assert_eq!(
        reported(" clock 50", ""),
        None,
        "nothing is said to be in line"
    );
}

#[test]
fn a_hole_that_goes_on_beyond_its_thread_keeps_its_size() {
    let text = pen(RELIEF, "69", "56")
        .replace("    drill 9.3              to 12\n", "")
        .replace(
            "drill 8.0              to 69",
            "drill 8.6              to 69",
        );
    let found = examined(&text).findings;
    let finding = found.iter().find(|it| it.rule == "off-tap-drill").unwrap();
    // Nine of thread and four pitches of 0.75 beyond it.
    assert_eq!(finding.fixes[0].title, "add drill 9.2 to 12");
    let cured = edited(&text, &finding.fixes[0].edits).unwrap();
    let left = examined(&cured).findings;
    let rules: Vec<_> = left.iter().map(|it| it.rule.code()).collect();
    assert!(!rules.contains(&"off-tap-drill"), "{rules:?}");
}

/// From a nib of 19 in a hole of 20 to ink behind one of 5, of 30: 5 less the points of ⌀6.3 and ⌀8,
/// (3.15 + 4)/tan 59° = 4.296, are solid.
#[test]
fn a_section_that_no_ink_gets_through_is_told_of() {
    let text = pen(RELIEF, "69", "56")
        .replace(
            "drill 6.3               through",
            "drill 6.3               to 20",
        )
        .replace("drill 8.0            to 17", "drill 8.0            to 5")
        .replace(
            "push  converter.mouth onto nib-unit.heel by 5",
            "fill barrel",
        );
    let found = examined(&text);
    let written = message(&found, "solid-between");
    assert_eq!(
        written,
        "0.70 mm of solid is left in section between the point of the ⌀6.30 drill and the point of the \
         ⌀8.00 drill: no ink gets through to what writes"
    );
    let open = examined(&text.replace("to 20", "to 20.8"));
    assert!(open.findings.iter().all(|it| it.rule != "solid-between"));
}

/// What slides right through is told of as that, however close it runs.
#[test]
fn what_nothing_stops_is_not_too_close_to_call() {
    let text = "\
part cap from mouth to crown {
  blank of acrylic rod 20
  length 40
  outside dia 18
  from mouth {
    bore 12.04 through
  }
}
part peg from front to back {
  blank of acrylic rod 16
  length 60
  outside dia 12
}
pen p {
  close cap.mouth onto peg.front
--^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ loose-part
}
";
    expect("too-close-to-call", text);
}

/// A bore that ends in the plane of a shoulder is no shoulder, and is not called so.
#[test]
fn a_face_of_the_outside_names_no_bottom_of_a_bore() {
    let text = |deep: &str| {
        format!(
            "part peg from tip to tail {{\n  blank of brass rod 20\n  length 40\n  outside dia 6\n}}\n\
             part socket from mouth to end {{\n  blank of brass rod 20\n  length 50\n  outside {{\n    at 9 dia 14 as ledge\n    \
             at 50 dia 14\n  }}\n  from mouth {{\n    tenon 12 for 9\n    bore 7 to {deep}\n  }}\n}}\n\
             pen test {{\n  slip peg.tip into socket.mouth {{\n    seat peg.tip on socket.mouth\n  }}\n}}\n"
        )
    };
    for deep in ["9", "8"] {
        let found = crate::examined(&text(deep));
        let told: Vec<String> = found
            .findings
            .iter()
            .map(|it| it.message.to_string())
            .collect();
        let of_bore = told.iter().any(|it| it.contains("socket's ⌀7.00 bore"));
        assert!(
            of_bore && !told.iter().any(|it| it.contains("ledge")),
            "{deep}: {told:#?}"
        );
    }
}
