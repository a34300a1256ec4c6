//! Walls at threads: over a thread, at its lip, in wood.

use super::tube;
use crate::page;

/// (12 − 17/24·√3·0.8 − 10)/2 = 0.509252, and the thousandth that nobody sees.
#[test]
fn a_thread_over_a_thread() {
    let cuts = "tenon 11.9 for 8\n    thread M12x0.8 outside for 5\n    drill 9.0 to 15\n    thread M10x1 inside to 9";
    let it = tube("thin-wall", "acrylic", "14", cuts).and("limit thin-wall = $\n");
    it.edge("0.510252", "0.510253");
}

/// M13 leaves (D − 13)/2 of lip: 1.5 mm from 16 on. A pitch of plain bore, or a countersink as wide
/// as the thread, does without; and where there is no lip another rule speaks.
#[test]
fn a_lip_at_a_thread() {
    let it = page("mouth-splits");
    let outside = it.clone().but("dia 15.4", "dia $");
    outside
        .edge("15.999999", "15.999998")
        .message("begins 0 mm from the mouth, at a lip of 1.499999 mm; 1.5 mm of wall, or one pitch (0.8 mm) of plain bore before it, is wanted")
        .hints("countersink 13.4, or a plain bore of ⌀13.1 for one pitch or more");
    outside.edge("13", "13.000001");
    let begins = it.clone().but("to 6", "to 6 at $");
    begins.edge("0.8", "0.799999");
    let sunk = it.clone().but("drill", "countersink $\n    drill");
    sunk.edge("13", "12.999999");
    // At the other end a countersink is none for this one.
    let other = it.clone().but(
        "\n  from mouth",
        "\n  from crown {\n    drill 5 to 4\n    countersink 13.4 angle 120\n  }\n  from mouth",
    );
    other.speaks("");
    let limited = it.clone().and("limit mouth-splits = $\n");
    limited.edge("1.2", "1.200001");
    let crown = it.but("\n  from mouth", "\n  from crown");
    let crown = crown.but("to 6", "to 6 at $");
    crown
        .edge("0.8", "0.799999")
        .message("begins 0.799999 mm from the crown");
}

/// At the other end, and with the outside stepping down there, the lip is the outside's inward side.
#[test]
fn a_lip_under_a_step() {
    let it = page("mouth-splits").but(
        "outside dia 15.4",
        "outside {\n    at 0 dia $\n    at 60 dia 17\n  }",
    );
    it.edge("15.999999", "15.999998");
    let it = it
        .but("\n  from mouth", "\n  from crown")
        .but("at 60 dia 17", "at 60 dia 15.4");
    it.speaks("17").message("at a lip of 1.20 mm");
}

#[test]
fn a_pitch_in_wood() {
    let it = page("crumbling-thread").and("limit crumbling-thread = $\n");
    it.edge("0.75", "0.750001").message(
        "a pitch of 0.750000 mm in hard-maple (hard-maple); 0.750001 mm or more holds there",
    );
}
