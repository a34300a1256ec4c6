//! An overlap that is written, `by L`, and the ends it is written for.

use crate::tried;

/// A plug of ⌀8 for 12, its collar ⌀11, and a sleeve bored so; both as bought, so that nothing else is
/// said of them.
fn joined(joint: &str, bore: &str) -> String {
    format!(
        "bought plug from nose to back {{\n length 30\n mass 2\n outside {{\n at 0 dia 8\n at 12 dia 8 step 11\n at 30 dia 11\n }}\n}}\n\
         bought sleeve from mouth to end {{\n length 40\n mass 3\n outside dia 12\n{bore}\n}}\n\
         pen test {{\n {joint}\n}}\n"
    )
}

const BORE: &str = " from mouth {\n bore 8 to 9\n }";

/// The message and the cures of the joint's own findings.
#[track_caller]
fn told(joint: &str, bore: &str) -> Vec<(String, String, Vec<String>)> {
    let rules = ["stops-early", "wont-pass", "nothing-holds", "syntax"];
    let found = tried(&joined(joint, bore));
    let of_joint = found
        .iter()
        .filter(|it| rules.iter().any(|rule| it.rule == *rule));
    of_joint
        .map(|it| {
            let cures = it.fixes.iter().map(|fix| fix.title.to_string()).collect();
            (it.rule.to_string(), it.message.to_string(), cures)
        })
        .collect()
}

/// The bore ends flat at 9, 3 before the collar would meet the mouth at 12: the plug goes 9 in.
#[test]
fn no_more_goes_in_than_there_is_room_for() {
    for verb in ["push", "press", "slip"] {
        for by in ["4", "9", "9.04"] {
            let found = told(&format!("{verb} plug.nose into sleeve.mouth by {by}"), BORE);
            let stops = found.iter().any(|it| it.0 == "stops-early");
            assert!(!stops, "{verb} by {by}: {found:?}");
        }
        for (by, less) in [("9.06", "0.06"), ("12", "3.00"), ("50", "41.00")] {
            let found = told(&format!("{verb} plug.nose into sleeve.mouth by {by}"), BORE);
            let message = format!(
                "plug.nose goes 9.00 mm into sleeve.mouth, {less} mm less than is written: plug's nose \
                 meets sleeve's ⌀8.00 bore"
            );
            let it = found.iter().find(|it| it.0 == "stops-early");
            let it = it.unwrap_or_else(|| panic!("{verb} by {by}: {found:?}"));
            assert_eq!(it.1, message);
            assert!(
                it.2.contains(&"write by 9".into()),
                "{verb} by {by}: {it:?}"
            );
        }
    }
    // Where the collar stops it first, that is told: 12 of the 15.
    let deep = " from mouth {\n bore 8 to 20\n }";
    let found = told("push plug.nose into sleeve.mouth by 15", deep);
    assert!(found[0].1.contains("goes 12.00 mm"), "{found:?}");
}

/// Of a bought part whose inside is drawn, what is not bored is solid; only one of which nothing inside is
/// said takes up what it is pushed onto, where that is slimmer than it.
#[test]
fn a_push_goes_where_there_is_a_bore_or_none_is_drawn() {
    let cases = [
        ("push sleeve.mouth onto plug.nose by 5", BORE, None),
        (
            "push sleeve.end onto plug.nose by 5",
            BORE,
            Some("write sleeve.mouth"),
        ),
        (
            "push sleeve.mouth into plug.nose by 5",
            BORE,
            Some("write onto"),
        ),
        // Nothing inside is drawn.
        ("push sleeve.end onto plug.nose by 5", "", None),
        ("push sleeve.mouth onto plug.nose by 5", "", None),
        // 12 does not go into 8, nor 11 into what is 11.
        (
            "push sleeve.mouth into plug.nose by 5",
            "",
            Some("write onto"),
        ),
    ];
    for (joint, bore, cure) in cases {
        let found = told(joint, bore);
        let Some(cure) = cure else {
            assert!(found.is_empty(), "{joint}: {found:?}");
            continue;
        };
        let it = &found[0];
        assert_eq!(it.0, "stops-early", "{joint}: {found:?}");
        assert_eq!(
            it.2.first().map(String::as_str),
            Some(cure),
            "{joint}: {it:?}"
        );
    }
    // Where no overlap is written it stops at the face, and nothing holds it there.
    let found = told("push sleeve.end onto plug.nose", BORE);
    assert_eq!(found[0].0, "nothing-holds", "{found:?}");
    assert!(
        found[0].2.contains(&"write sleeve.mouth".into()),
        "{found:?}"
    );
}

/// The same in inches: 5/16 into a bore 0.4 deep, 0.35 of it asked for, then 0.6.
#[test]
fn an_overlap_in_inches_is_cured_in_inches() {
    let text = |by: &str| {
        format!(
            "dimensions in inches\n\
             bought plug from nose to back {{\n length 1.2\n mass 2\n outside {{\n at 0 dia 5/16\n at 0.6 dia 5/16 step 0.44\n at 1.2 dia 0.44\n }}\n}}\n\
             bought sleeve from mouth to end {{\n length 1.6\n mass 3\n outside dia 0.47\n from mouth {{\n bore 5/16 to 0.4\n }}\n}}\n\
             pen test {{\n push plug.nose into sleeve.mouth by {by}\n}}\n"
        )
    };
    assert!(tried(&text("0.35")).is_empty());
    let found = tried(&text("0.6"));
    assert_eq!(found[0].rule, "stops-early", "{found:#?}");
    let title = found[0].fixes[0].title.clone();
    let title = title.in_units(quillet_model::Units::Inches);
    // 0.4 in is no whole number of 64ths.
    assert_eq!(title.to_string(), "write by 0.4");
}
