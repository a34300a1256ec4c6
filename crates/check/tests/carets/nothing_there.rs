//! What is not there has no width, length or place less than nothing.

use crate::{examined, message};

/// A rule's page, its example that fails or passes.
fn page(text: &str, kind: &str) -> String {
    let from = text.split(&format!("```quillet {kind}\n")).nth(1).unwrap();
    from.split("```").next().unwrap().to_owned()
}

#[test]
fn a_part_slimmer_than_its_thread_has_nothing_to_bear_with() {
    let fails = page(include_str!("../../src/rules/narrow-bearing.md"), "fails");
    for dia in ["8.4", "9", "7.95"] {
        let text = fails.replace("dia 9.4", &format!("dia {dia}"));
        let found = examined(&text);
        assert_eq!(
            message(&found, "narrow-bearing"),
            "on its mandrel section has nothing to bear with at the shank: it is no fatter behind \
             its thread than the thread; a ring of 0.3 mm a side is wanted"
        );
    }
    let found = examined(&fails.replace("dia 9.4", "dia 9.002"));
    let told = message(&found, "narrow-bearing");
    assert!(told.contains("a ring of 0.001 mm a side"), "{told}");
}

#[test]
fn no_groove_is_cut_to_less_than_nothing() {
    let passes = page(include_str!("../../src/rules/leaky-reservoir.md"), "passes");
    for ring in ["9.2 by 9", "9.2 by 12", "1 by 6"] {
        let found = examined(&passes.replace("9.2 by 1", ring));
        let of_rule = |it: &&quillet_syntax::Finding| it.rule == "leaky-reservoir";
        let hints = found.findings.iter().filter(of_rule);
        let hints: Vec<String> = hints.map(|it| format!("{:?}", it.hint)).collect();
        assert!(!hints.is_empty(), "{ring}");
        assert!(hints.iter().all(|it| !it.contains("-")), "{hints:?}");
    }
}

#[test]
fn a_station_before_the_first_end_lies_so_far_before_it() {
    let part = |at: &str| {
        format!(
            "part tube from mouth to tail {{\n  blank of acrylic rod 16\n  length 40\n  outside \
             {{\n    at 0 dia 12\n    at {at} dia 13\n    at tail dia 12\n  }}\n}}\n"
        )
    };
    for (at, told) in [
        (
            "48.5 from tail",
            "this station lies 8.5 mm before tube begins",
        ),
        ("41", "this station lies at 41 mm, beyond the 40 mm of tube"),
    ] {
        assert_eq!(message(&examined(&part(at)), "out-of-range"), told);
    }
}
