//! A thread in the piece it is cut in: what it is of, how coarse, how wide.

use crate::{examined, expect};

/// Acrylic bears 0.577 · 20 MPa in shear. Of 7/16-14UNC-2A/2B (limits of ASME B1.1 in inches:
/// d2 min 0.3850, D1 max 0.3760), π · 9.550 mm · (1/2 + 0.57735 · 0.0090 · 14) = 17.2 mm² a
/// millimetre: 198 N; 300 N and a lean of 500 N·mm over 5.0 mm want 2.0 mm.
#[test]
fn a_coarse_thread_is_judged_by_what_it_bears_not_by_its_pitches() {
    let text = |thread: &str, drill: &str, long: f64, of: &str| {
        let rest = format!("{:.2}", 12.0 - long);
        format!(
            "\
part section from tip to shank {{
  blank of {of} rod 16
  length 30
  outside dia 12.6
  from shank {{
    tenon for 12
    thread {thread} outside for {long}
    relief 8 for {rest} at {long}
  }}
}}

part barrel from mouth to tail {{
  blank of {of} rod 18
  length 60
  outside dia 16
  from mouth {{
    drill {drill} to 30
    thread {thread} inside to 14
  }}
}}

pen plain {{
  screw section.shank into barrel.mouth
}}
"
        )
    };
    let short = |thread: &str, drill: &str, long: f64, of: &str| {
        let found = examined(&text(thread, drill, long, of));
        let short = |it: &&quillet_syntax::Finding| it.rule == "short-engagement";
        found
            .findings
            .iter()
            .find(short)
            .map(|it| it.message.clone())
    };
    assert_eq!(short("7/16-14UNC", "9.4", 8.6, "acrylic"), None);
    assert_eq!(short("7/16-14UNC", "9.4", 2.1, "acrylic"), None);
    let reported = short("7/16-14UNC", "9.4", 1.9, "acrylic").unwrap();
    assert!(
        reported.starts_with("1.90 mm of thread lies in the other and bears about 37"),
        "{reported}"
    );
    // Less than a pitch bears in brass, and does not go all the way round.
    assert_eq!(short("7/16-14UNC", "9.4", 1.82, "brass"), None);
    let reported = short("7/16-14UNC", "9.4", 1.8, "brass").unwrap();
    assert!(reported.contains("less than a pitch"), "{reported}");
    // Wood shears along its grain: a diameter of thread, or nearly.
    assert!(short("M10x1.25", "8.8", 7.0, "hard-maple").is_some());
    assert_eq!(short("M10x1.25", "8.8", 9.5, "hard-maple"), None);
}

#[test]
fn a_thread_is_judged_in_the_piece_it_is_cut_in() {
    let text = |spigot: &str, caret: &str| {
        format!(
            "\
part barrel from mouth to tail {{
  blank of polyester-resin rod 18 to 12
  blank of white-oak rod 18 spigot {spigot} gap 0.1
  length 60
  outside dia 15
  from mouth {{
    countersink 10.4
    drill 9.3 to 50
    thread M10x0.75 inside to 6
{caret}  }}
}}
"
        )
    };
    let caret = "--  ^^^^^^^^^^^^^^^^^^^^^^^^^^^ crumbling-thread\n";
    // As far as the thread, along and across; its pitch diameter is 9.51.
    expect("crumbling-thread", &text("13 for 12", caret));
    expect("crumbling-thread", &text("13 for 6.1", caret));
    expect("crumbling-thread", &text("13 for 6", ""));
    expect("crumbling-thread", &text("9.6 for 12", caret));
    expect("crumbling-thread", &text("9.5 for 12", ""));
}

#[test]
fn a_thread_in_wood_is_judged_by_kind_pitch_and_size() {
    let text = |of: &str, thread: &str, caret: &str| {
        format!(
            "\
part barrel from mouth to tail {{
  blank of {of} rod 30
  length 60
  outside dia 26
  from tail {{
    tenon for 12
    thread {thread} outside for 8
{caret}  }}
}}
"
        )
    };
    let crumbles = |of: &str, thread: &str| {
        let found = examined(&text(of, thread, ""));
        found
            .findings
            .iter()
            .any(|it| it.rule == "crumbling-thread")
    };
    for (of, thread, wanted) in [
        ("boxwood", "M13x0.75", false),
        ("boxwood", "M13x0.7", true),
        ("african-blackwood", "M13x0.8 starts 3", false),
        ("hard-maple", "M10x1", true),
        ("hard-maple", "M10x1.25", false),
        // 0.75 · 20 / 16 is 0.9375: a thread of 20 mm wants more than one of 13.
        ("boxwood", "M20x0.9", true),
        ("boxwood", "M20x1", false),
        ("flaked-resin", "M20x1", false),
        ("acrylic", "M10x0.5", false),
    ] {
        assert_eq!(crumbles(of, thread), wanted, "{thread} in {of}");
    }
}

/// Of maple 1.25 mm is the finest that holds, of boxwood and blackwood 0.75 (common practice, no published
/// source), up to 16 mm; beyond it grows with the thread, as 17/16 of it at 17 mm.
#[test]
fn what_crumbles_goes_by_wood_pitch_and_size() {
    let text = |wood: &str, thread: &str, crumbles: bool| {
        let line = format!("thread {thread} inside to 12");
        let caret = match crumbles {
            true => format!("--  {} crumbling-thread\n", "^".repeat(line.len())),
            false => String::new(),
        };
        format!(
            "part cap from mouth to crown {{\n  blank of {wood} rod 40\n  length 60\n  outside dia 36\n  from mouth {{\n    {line}\n{caret}  }}\n}}\n"
        )
    };
    for (wood, thread, crumbles) in [
        ("hard-maple", "M14x0.75", true),
        ("hard-maple", "M14x1", true),
        ("hard-maple", "M14x1.25", false),
        ("hard-maple", "M18x1.25", true),
        ("hard-maple", "M18x1.5", false),
        ("boxwood", "M14x0.75", false),
        ("boxwood", "M16x0.75", false),
        ("boxwood", "M17x0.75", true),
        ("boxwood", "M14x0.5", true),
        ("african-blackwood", "M12x0.75", false),
        ("african-blackwood", "M12x0.5", true),
        ("african-blackwood", "M20x1", false),
    ] {
        expect("crumbling-thread", &text(wood, thread, crumbles));
    }
}
