//! What holds a joint.

mod holes;

use crate::examined;
use quillet_syntax::Finding;

/// The findings of these rules.
fn found(text: &str, rules: &[&str]) -> Vec<Finding> {
    let all = examined(text).findings;
    all.into_iter()
        .filter(|it| rules.iter().any(|rule| it.rule == *rule))
        .collect()
}

fn reported(text: &str, rules: &[&str]) -> Vec<String> {
    let findings = found(text, rules);
    findings.iter().map(|it| it.rule.to_string()).collect()
}

/// Whether `nothing-holds` is found.
#[track_caller]
fn loose(text: &str) -> bool {
    let found = found(
        text,
        &[
            "nothing-holds",
            "syntax",
            "unknown-name",
            "stops-early",
            "wont-pass",
        ],
    );
    assert!(
        found.iter().all(|it| it.rule == "nothing-holds"),
        "{found:#?}\n{text}"
    );
    !found.is_empty()
}

/// A peg of this diameter for 10, its shoulder 18 across, joined with a tube bored so.
fn peg(joint: &str, dia: &str, bore: &str, peg: &str, tube: &str) -> String {
    format!(
        "bought seal {{\n ring 9.6 by 1.5\n mass 0.05\n}}\n\
         part peg from front to back {{\n blank of acrylic rod 20\n length 40\n outside {{\n at 0 dia {dia}\n at 10 dia {dia} step 18 as ledge\n at 40 dia 18\n}}\n{peg}\n}}\n\
         part tube from mouth to end {{\n blank of acrylic rod 20\n length 50\n outside dia 18\n from mouth {{\n bore {bore} to 20\n}}\n{tube}\n}}\n\
         pen test {{\n {joint}\n}}\n"
    )
}

const CLOSE: &str = "close tube.mouth onto peg.front";

#[test]
fn a_plain_cap_is_held_by_nothing_unless_a_ring_is_squeezed() {
    for (dia, bore) in [
        ("12", "13.4"),
        ("11", "12.7"),
        ("12", "12.02"),
        ("14", "14.3"),
    ] {
        assert!(loose(&peg(CLOSE, dia, bore, "", "")), "{dia} in {bore}");
        // Posted the other way round it is the same cap.
        assert!(loose(&peg(
            "close peg.front onto tube.mouth",
            dia,
            bore,
            "",
            ""
        )));
    }
    // A cord of 1.5, thinned to 1.466 as it is stretched over 10: room for it 1.25 squeezes it by
    // 15 %, 1.4 by 4.5 %.
    let ring = "from front {\n groove 10 for 2 at 4 takes seal\n}";
    assert!(!loose(&peg(CLOSE, "12.3", "12.5", ring, "")));
    assert!(loose(&peg(CLOSE, "12.3", "12.8", ring, "")));
}

#[test]
fn a_cap_that_only_its_own_sizes_hold_is_too_close_to_call() {
    let rules = [
        "nothing-holds",
        "too-close-to-call",
        "stiff-cap",
        "wont-pass",
    ];
    for (bore, wanted) in [
        ("12", "too-close-to-call"),
        ("11.995", "too-close-to-call"),
        ("11.99", "too-close-to-call"),
        ("11.98", "stiff-cap"),
        ("11.9", "stiff-cap"),
        ("11.89", "wont-pass"),
        ("12.4", "nothing-holds"),
    ] {
        assert_eq!(
            reported(&peg(CLOSE, "12", bore, "", ""), &rules),
            [wanted],
            "{bore}"
        );
    }
}

#[test]
fn a_push_holds_between_a_press_and_a_rattle() {
    let push = "push peg.front into tube.mouth";
    for (bore, held) in [
        ("12.05", true),
        ("12.06", false),
        ("12", true),
        ("11.7", true),
        ("11.6", true),
        ("13", false),
    ] {
        assert_eq!(!loose(&peg(push, "12", bore, "", "")), held, "{bore}");
    }
    assert_eq!(
        reported(
            &peg(push, "12", "11.58", "", ""),
            &["wont-pass", "nothing-holds"]
        ),
        ["wont-pass"]
    );
}

#[test]
fn glue_holds_in_a_gap_it_fills_over_a_millimetre() {
    let glue = "glue peg.front into tube.mouth";
    assert!(!loose(&peg(glue, "12", "12.1", "", "")));
    assert!(!loose(&peg(glue, "12", "12.3", "", "")));
    assert!(loose(&peg(glue, "12", "12.31", "", "")));
    assert!(loose(&peg(glue, "12", "13", "", "")));
    // A neck of 12.1 only, of this length, before it widens.
    let neck = |length: &str| {
        peg(glue, "12", "14", "", "").replace(
            "bore 14 to 20",
            &format!("bore 14 to 9\n bore 12.1 to {length}"),
        )
    };
    assert!(!loose(&neck("20")));
    assert!(loose(&neck("20").replace("at 10 dia 12", "at 9.9 dia 12")));
    // Butt, and what glue does not stick to.
    let butt = peg(
        "glue peg.front into tube.mouth {\n seat peg.front on tube.mouth\n}",
        "18",
        "12.1",
        "",
        "",
    );
    assert!(loose(&butt.replace(" step 18 as ledge", "")));
    assert!(loose(&peg(glue, "12", "12.1", "", "").replacen(
        "of acrylic",
        "of acetal",
        1
    )));
    // One gap, one finding.
    assert_eq!(
        reported(
            &peg(glue, "12", "13", "", ""),
            &["poor-fit", "nothing-holds"]
        ),
        ["nothing-holds"]
    );
}

#[test]
fn the_spigot_of_a_stack_is_glued_like_a_joint() {
    let stack = |spigot: &str| {
        format!(
            "part stack from a to b {{\n blank of acrylic rod 16 to 20\n blank of brass rod 16 spigot {spigot}\n length 40\n outside dia 14\n}}\n"
        )
    };
    for (spigot, held) in [
        ("10 for 12 gap 0.1", true),
        ("10 for 12 gap 0.3", true),
        ("10 for 12 gap 0.31", false),
        ("9 for 6 gap 1", false),
        ("9 for 1 gap 0.1", true),
        ("9 for 0.9 gap 0.1", false),
    ] {
        assert_eq!(!loose(&stack(spigot)), held, "{spigot}");
    }
}

#[test]
fn a_slip_is_held_by_what_closes_behind_it() {
    // A sleeve slipped on a peg, and a knob that is screwed, or is not, on the peg's front.
    let text = |knob: &str, gap: f64| {
        format!(
            "part peg from front to back {{\n blank of acrylic rod 20\n length 40\n outside {{\n at 0 dia 9.9\n at 8 dia 9.9 step 10.6 as ledge\n at {} dia 10.6 step 18\n at 40 dia 18\n}}\n\
             from front {{\n thread M10x0.75 outside for 7\n relief 9 for 1 at 7\n}}\n}}\n\
             part sleeve from front to back {{\n blank of acrylic rod 20\n length 10\n outside dia 18\n from front {{\n bore 10.7 through\n}}\n}}\n\
             part knob from mouth to top {{\n blank of acrylic rod 20\n length 14\n outside dia 18\n from mouth {{\n drill 9.3 to 12\n thread M10x0.75 inside to 9\n}}\n}}\n\
             pen test {{\n slip peg.front into sleeve.back\n {knob}\n}}\n",
            18.0 + gap
        )
    };
    let knob = "screw peg.front into knob.mouth";
    assert!(!loose(&text(knob, 0.0)));
    assert!(!loose(&text(knob, 4.9)));
    assert!(loose(&text(knob, 5.1)));
    assert!(loose(&text("", 0.0)));
}
